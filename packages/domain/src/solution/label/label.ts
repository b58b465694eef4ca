import type { IsoDate } from '../../time/zone.ts';

/** One element of a label: an identifier and its value. */
export type LabelElement = {
  ai: string;
  value: string;
  /** Where its value begins in what was scanned, from 1. */
  at: number;
};

/** What a label says; null = it does not say. */
export type Label = {
  /** 14 digits. */
  gtin: string | null;
  lot: string | null;
  expiresOn: IsoDate | null;
  madeOn: IsoDate | null;
  serial: string | null;
  count: number | null;
  /** All elements as they stand, also those that nothing here uses. */
  elements: readonly LabelElement[];
};

/** Each way in which a scan is not a label. Nothing of it is guessed; `at` counts characters of the scan from 1. */
export type LabelProblem =
  | { is: 'empty' }
  /** Not a GS1 code at all. */
  | { is: 'notGs1'; text: string }
  | { is: 'brackets'; at: number }
  | { is: 'unknownIdentifier'; at: number; text: string }
  /** `found` stands at `at`; with all other digits right it should be `shouldBe`. */
  | { is: 'checkDigit'; ai: string; value: string; at: number; found: string; shouldBe: string }
  | { is: 'impossibleDate'; ai: string; value: string; at: number; wrong: 'month' | 'day'; allowed: string }
  | { is: 'wrongCharacter'; ai: string; value: string; at: number; character: string; allowed: string }
  | { is: 'tooLong'; ai: string; value: string; most: number }
  | { is: 'tooShort'; ai: string; value: string; least: number }
  /** A value of varying length runs on: into `tail`, as far as can be seen. */
  | { is: 'separatorMissing'; ai: string; value: string; tail: string | null }
  /** One identifier twice, with different values. */
  | { is: 'contradiction'; ai: string; values: readonly [string, string] };

export type LabelReading =
  | { is: 'label'; label: Label }
  /** A plain product code (EAN, UPC, GTIN): no lot, no expiry. `gtin`: 14 digits. */
  | { is: 'productCode'; gtin: string }
  | { is: 'unreadable'; problems: readonly [LabelProblem, ...LabelProblem[]] };
