/** What is wrong with one line, before it is known which file it stands in. */
export interface Problem {
  readonly code: ProblemCode;
  readonly message: string;
  readonly numbers?: Readonly<Record<string, number>>;
  readonly severity?: "warning";
}

/** Stable names for what a strict reader refuses or doubts. */
export type ProblemCode =
  // The text itself (NISTIR 6556, 3.3)
  | "line_too_long"
  | "illegal_character"
  | "illegal_word"
  | "illegal_number"
  | "illegal_line_number"
  | "illegal_comment"
  | "illegal_expression"
  | "illegal_parameter"
  | "missing_percent"
  | "missing_program_end"
  | "text_after_end"
  | "too_many_problems"
  // Words that do not go together (3.4 to 3.8)
  | "repeated_word"
  | "unknown_code"
  | "unsupported_code"
  | "same_modal_group"
  | "too_many_m_codes"
  | "axis_words_disputed"
  | "axis_words_missing"
  | "axis_words_unused"
  | "unused_word"
  | "missing_word"
  | "value_out_of_range"
  | "feed_missing"
  // Arcs (3.5.3)
  | "arc_centre_missing"
  | "arc_end_missing"
  | "arc_mixed_formats"
  | "arc_mismatch"
  | "arc_zero_radius"
  | "arc_radius_too_small"
  // Cycles (3.5.16)
  | "cycle_below_retract"
  | "cycle_not_allowed"
  // What a program alone cannot tell
  | "unknown_offset"
  | "unknown_start"
  | "length_offset"
  | "units_changed"
  | "long_dwell"
  | "block_delete";

export function problem(
  code: ProblemCode,
  message: string,
  numbers: Readonly<Record<string, number>> = {},
): Problem {
  return { code, message, numbers };
}

export function doubt(
  code: ProblemCode,
  message: string,
  numbers: Readonly<Record<string, number>> = {},
): Problem {
  return { code, message, numbers, severity: "warning" };
}
