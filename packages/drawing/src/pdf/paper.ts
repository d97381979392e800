/** Paper that a printer at home or at work holds, upright: width and height, mm. */
export const papers = {
  a4: [210, 297],
  a3: [297, 420],
  letter: [215.9, 279.4],
} as const;

export type PaperName = keyof typeof papers;

/** Printers leave about 5 mm white; this much is kept clear all round. mm. */
export const MARGIN = 10;
