import fc from "fast-check";

// The same cases on every run: what a hunt with other seeds finds becomes a test of its own.
fc.configureGlobal({ seed: 20 });

export default fc;
