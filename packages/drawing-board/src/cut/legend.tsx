import type { ComponentChildren, JSX } from "preact";

/** What the lines and tones of the view mean, as they are drawn. */
export function Legend(): JSX.Element {
  return (
    <ul class="cut-legend" aria-label="Line kinds">
      <Kind words="rapid, above the wood">
        <path class="rapid" d="M0 2.5h14" />
      </Kind>
      <Kind words="cut; heavier with each pass">
        <path class="cut" d="M0 1.2h14" stroke-width="0.25" />
        <path class="cut" d="M0 3.6h14" stroke-width="0.6" />
      </Kind>
      <Kind words="goes in; comes out">
        <circle class="cut-end" cx="4" cy="2.5" r="0.9" />
        <path class="cut-end" d="M10 1.3v2.4" />
      </Kind>
      <Kind words="tab, between two bars">
        <path class="outline" d="M0 2.5h4.6m4.8 0h4.6" />
        <path class="tab" d="M4.6 1v3m4.8-3v3" />
      </Kind>
      <Kind words="recess; closer hatched, deeper">
        <path class="recess hatch" d="M0 5l5-5m-1 5l5-5m-2 5l5-5m-3.4 5l5-5" />
      </Kind>
      <Kind words="cut through">
        <rect class="through" y="0.6" width="14" height="3.8" />
      </Kind>
      <Kind words="the line in hand">
        <path class="block" d="M0 2.5h14" />
      </Kind>
      <Kind words="the program's zero">
        <circle class="zero-ring" cx="7" cy="2.5" r="1.9" />
        <path class="zero" d="M7 2.5h1.9A1.9 1.9 0 0 1 7 4.4zM7 2.5h-1.9A1.9 1.9 0 0 1 7 .6z" />
      </Kind>
    </ul>
  );
}

function Kind({
  words,
  children,
}: {
  readonly words: string;
  readonly children: ComponentChildren;
}): JSX.Element {
  return (
    <li>
      <svg class="drawing swatch" viewBox="0 0 14 5" aria-hidden="true">
        {children}
      </svg>
      {words}
    </li>
  );
}
