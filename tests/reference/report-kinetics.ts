import { writeFileSync } from 'node:fs';
import { coverage, goalsOf, medianErrorMl, percent, SEEN, seenFrom } from './report-kinetics-goals.ts';
import { WORLDS } from './report-kinetics-patients.ts';
import { calibrationSvg } from './report-kinetics-picture.ts';
import { foreseeWorlds, LENGTHS, METHODS } from './report-kinetics-run.ts';

/**
 * Simulates invented patients in four worlds that are not the model, foresees every drain one step ahead, and prints how
 * honest the bands and how large the errors were. Ends with 1 when a goal is missed.
 */
const PATIENTS = 100;
const EXCHANGES = 100;
const SEED = 20_261_125;
const PICTURE = new URL('../../shared/reference/kinetics-calibration.svg', import.meta.url);

const print = (title: string, head: readonly string[], rows: readonly (readonly string[])[]): void => {
  const table = [head, ...rows];
  const widths = head.map((_, column) => Math.max(...table.map((row) => row[column]!.length)));
  console.log(`\n${title}`);
  for (const row of table) {
    console.log(row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!))).join('  '));
  }
};

const foresights = foreseeWorlds(PATIENTS, EXCHANGES, SEED);
const later = seenFrom(foresights, 5);
const worlds = WORLDS.map(({ name }) => name);
console.log(
  `${PATIENTS} invented patients × ${EXCHANGES} exchanges in each of ${worlds.length} worlds, seed ${SEED}; one drain in 33 mis-weighed by 200 to 1,000 mL. One step ahead.`,
);

print(
  'Share of drains within the 80 % band, from the sixth on, by length',
  ['', ...worlds, 'all', 'drains'],
  [...LENGTHS, 'all'].map((length) => {
    const among = later.filter((one) => length === 'all' || one.length === length);
    return [
      length,
      ...worlds.map((world) => percent(coverage(among.filter((one) => one.world === world)))),
      percent(coverage(among)),
      String(among.length),
    ];
  }),
);

print(
  'Share of drains within the 80 % band, by drains seen before',
  ['', ...worlds, 'all', 'drains'],
  [
    ...SEEN.map(({ name, from, to }) => ({ name, among: seenFrom(foresights, from, to) })),
    { name: 'first of a new kind', among: foresights.filter(({ newKind }) => newKind) },
  ].map(({ name, among }) => [
    name,
    ...worlds.map((world) => percent(coverage(among.filter((one) => one.world === world)))),
    percent(coverage(among)),
    String(among.length),
  ]),
);

for (const { title, among } of [
  { title: 'Median error, mL, second to fifth drain', among: seenFrom(foresights, 1, 5) },
  { title: 'Median error, mL, from the 21st drain on', among: seenFrom(foresights, 20) },
]) {
  print(
    title,
    ['', ...worlds, 'all'],
    METHODS.map((method) => [
      method,
      ...worlds.map((world) =>
        medianErrorMl(
          among.filter((one) => one.world === world),
          method,
        ).toFixed(0),
      ),
      medianErrorMl(among, method).toFixed(0),
    ]),
  );
}

const goals = goalsOf(foresights);
print(
  'Goals',
  ['', 'asked', 'got', ''],
  goals.map(({ goal, asked, got, held }) => [goal, asked, percent(got), held ? 'held' : 'MISSED']),
);

writeFileSync(
  PICTURE,
  calibrationSvg(later, `${later.length} drains from the sixth on, ${worlds.length * PATIENTS} invented patients`),
);
console.log('\nCalibration picture: shared/reference/kinetics-calibration.svg');
process.exitCode = goals.every(({ held }) => held) ? 0 : 1;
