import { readLabel } from '../solution/label/read-label.ts';

/** A symbology identifier of a code that is no GS1 code, as some scanners send it in front. */
const CARRIER = /^\][A-Za-z]\d/;
/** AI of a patient as the receiver of a service (GS1 General Specifications, GSRN). */
const PATIENT = '8018';

/**
 * The patient's number on a wristband: the plain text of the code, or the service number of a GS1 code (AI 8018).
 * @returns '' where nothing was read
 */
export function readWristband(scanned: string): string {
  // no date stands beside it, so the year does not matter
  const read = readLabel(scanned, 2000);
  const number = read.is === 'label' ? read.label.elements.find(({ ai }) => ai === PATIENT)?.value : undefined;
  return number ?? scanned.trim().replace(CARRIER, '').trim();
}

const key = (number: string): string => number.replaceAll(/\s/g, '').toUpperCase();

/** Whether a wristband carries this hospital number; capitals and blanks do not make another number. */
export const carries = (scanned: string, hospitalNumber: string): boolean =>
  key(hospitalNumber) !== '' && key(readWristband(scanned)) === key(hospitalNumber);
