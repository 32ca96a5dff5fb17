/** Classes of faults in the trade's words, lightest first. */
export const FaultSeverity = {
  SLIGHT: 'slight',
  MINOR: 'minor',
  MAJOR: 'major',
  SEVERE: 'severe',
  DISQUALIFYING: 'disqualifying',
} as const;
export type FaultSeverity = (typeof FaultSeverity)[keyof typeof FaultSeverity];

export interface SheetLineContent {
  readonly traitId: string;
  /** Version of the trait when the sheet was made: the levels below were set with its range in mind. */
  readonly traitVersion: number;
  readonly weight: number | null;
  readonly noneAt: number | null;
  readonly fullAt: number | null;
}

export interface SheetFaultContent {
  readonly id: string;
  readonly name: string;
  readonly severity: FaultSeverity;
}

/** Points taken off by class; a class that is not named takes none. */
export type SheetDeductions = Partial<Record<FaultSeverity, number>>;

/** What one version of a sheet asks for; never changed once made. */
export interface SheetContent {
  readonly fromAgeDays: number | null;
  readonly toAgeDays: number | null;
  readonly lines: SheetLineContent[];
  readonly faults: SheetFaultContent[];
  readonly deductions: SheetDeductions;
}
