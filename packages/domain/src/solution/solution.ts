/** One product of the formulary. Nothing is derived from its name: the numbers are its own. */
export type Solution = {
  id: string;
  /** As printed on the bag and as people say it: "2.5 % dextrose (2.27 % glucose)". */
  label: string;
  /** The strength alone, as text: "2.5 %", "icodextrin 7.5 %". */
  strength: string;
  /** Anhydrous glucose, g/L; 0 for icodextrin. */
  glucoseGPerL: number;
  /** Icodextrin, g/L; 0 for glucose fluids. */
  icodextrinGPerL: number;
  buffer: 'lactate' | 'bicarbonate' | 'bicarbonate-lactate';
  calciumMmolPerL: number;
  sodiumMmolPerL: number;
  /** Volumes printed on the bags that the ward keeps, mL. */
  bagMl: readonly number[];
  /** What the maker puts in above the label, mL; null = not known. */
  bagExcessMl: number | null;
  chambers: 1 | 2 | 3;
};

/** What the nurse holds in the hand. */
export type BagInHand = {
  solutionId: string;
  /** Volume printed on the bag, mL. */
  labelledMl: number;
  /** Expiry printed on the bag, `YYYY-MM-DD`. */
  expiresOn: string | null;
  lot: string | null;
  /** How it got here. */
  read: 'scanned' | 'typed';
  /** What the scanner sent, character for character (separator: U+001D); left out where nothing was scanned. */
  label?: string;
};
