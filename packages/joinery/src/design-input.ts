import type {
  CheekRules,
  CrestRules,
  EdgeRules,
  FootRules,
  Inside,
  JointRules,
  LayerRules,
  LockedPart,
  OpeningRules,
  SheetMaterial,
  SheetSize,
  TierRules,
  Units,
} from "./design.ts";

/** Any key may be left out, at every depth. */
export type Loose<T> = T extends number | string | null
  ? T
  : { readonly [K in keyof T]?: Loose<T[K]> | undefined };

/** A design as its file holds it, lengths already in mm; what is left out, `fillDesign` fills in. */
export interface DesignInput {
  readonly dryfit: 1;
  readonly name: string;
  readonly units?: Units | undefined;
  readonly inside: Inside;
  readonly sheet: Loose<Omit<SheetMaterial, "thickness" | "readings" | "sizes" | "locked">> & {
    readonly thickness: number | readonly number[];
    readonly sizes: readonly (SheetSize["size"] | SheetInput)[];
    readonly grain?: "x" | "y" | undefined;
    readonly locked?: readonly LockInput[] | undefined;
  };
  readonly construction?: "housed" | "layered" | undefined;
  readonly joint?: Loose<JointRules> | undefined;
  readonly layers?: Loose<LayerRules> | undefined;
  readonly cutter?: number | undefined;
  readonly cheek?:
    | {
        readonly crest?:
          | (DrawingInput & {
              readonly form?: "straight" | "arc" | "batten" | undefined;
              readonly through?: CrestRules["through"] | undefined;
              readonly above?: number | undefined;
            })
          | undefined;
        readonly feet?:
          | { readonly front?: Loose<FootRules> | undefined; readonly back?: Loose<FootRules> | undefined }
          | undefined;
        readonly overhang?: Loose<CheekRules["overhang"]> | undefined;
      }
    | undefined;
  readonly tier?: TierInput | null | undefined;
  readonly openings?: readonly OpeningInput[] | undefined;
  readonly edges?: readonly EdgeInput[] | undefined;
}

interface SheetInput {
  readonly id?: string | undefined;
  readonly size: SheetSize["size"];
  readonly grain?: "x" | "y" | undefined;
  readonly count?: number | null | undefined;
  readonly price?: number | null | undefined;
  readonly avoid?: SheetSize["avoid"] | undefined;
}

type LockInput = Pick<LockedPart, "part" | "x" | "y"> & Loose<Pick<LockedPart, "sheet" | "size" | "turn">>;

export type TierInput = Loose<TierRules> & { readonly slats: number; readonly slat: number };

/** A drawing's file and what the design says about it; nothing is drawn without a file. */
export interface DrawingInput {
  readonly file?: string | undefined;
  readonly units?: "mm" | "in" | "px" | undefined;
  readonly scale?: number | "fit" | undefined;
  readonly layer?: string | undefined;
}

export interface OpeningInput extends DrawingInput {
  readonly id?: string | undefined;
  readonly panel: string;
  readonly shape: OpeningRules["shape"];
  /** "cutter": the cutter's radius, which stands elsewhere in the file. */
  readonly size: Readonly<Record<string, number | "cutter">>;
  readonly from: Loose<OpeningRules["from"]>;
  readonly turn?: OpeningRules["turn"] | undefined;
  readonly relief?: OpeningRules["relief"] | undefined;
}

export type EdgeInput = Pick<EdgeRules, "panel" | "edge" | "radius"> & {
  readonly faces?: EdgeRules["faces"] | undefined;
  readonly form?: EdgeRules["form"] | undefined;
  readonly by?: EdgeRules["by"] | undefined;
};
