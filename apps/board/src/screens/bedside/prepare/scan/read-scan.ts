import type { Label, LabelProblem, PatientIdentity, Product, Supplies } from '@slackwater/domain';
import { readLabel } from '@slackwater/domain/solution/label/read-label';
import { productOf } from '@slackwater/domain/solution/supplies';
import { carries } from '@slackwater/domain/ward/wristband';

/** What a scan means at this bed. */
export type Scan =
  | { is: 'wristband'; whose: 'this' }
  /** Another patient of the ward; no more is shown of whom than the bed. */
  | { is: 'wristband'; whose: 'other'; bed: string | null }
  | { is: 'bag'; text: string; product: Product; label: Said }
  /** A code that nobody has listed, or a label that names none: what it says of lot and expiry holds all the same. */
  | { is: 'unknownProduct'; text: string; gtin: string | null; label: Said }
  | { is: 'wrong'; problems: readonly LabelProblem[] };

/** What a label says beside the product; a plain product code says neither. */
export type Said = Pick<Label, 'lot' | 'expiresOn'>;

type OnWard = { patient: Pick<PatientIdentity, 'id' | 'hospitalNumber'>; bed: string | null };

/**
 * Reads a scan: a wristband of this patient or another of the ward, else the label of a bag. Nothing is guessed: what is
 * neither is said to be wrong, and why.
 */
export const readScan = (
  text: string,
  at: { patient: OnWard['patient']; ward: readonly OnWard[]; supplies: Supplies; thisYear: number },
): Scan => {
  if (carries(text, at.patient.hospitalNumber)) return { is: 'wristband', whose: 'this' };
  const other = at.ward.find(({ patient }) => patient.id !== at.patient.id && carries(text, patient.hospitalNumber));
  if (other) return { is: 'wristband', whose: 'other', bed: other.bed };
  const read = readLabel(text, at.thisYear);
  if (read.is === 'unreadable') return { is: 'wrong', problems: read.problems };
  const { gtin } = read.is === 'label' ? read.label : read;
  const label = read.is === 'label' ? read.label : { lot: null, expiresOn: null };
  const product = productOf(at.supplies, gtin);
  if (product === null) return { is: 'unknownProduct', text, gtin, label };
  return { is: 'bag', text, product, label };
};
