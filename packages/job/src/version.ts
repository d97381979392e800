/** Stands in `dryfit --version` and in job.json; a test holds it to package.json. */
export const VERSION = "0.1.0";
