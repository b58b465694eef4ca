import type { Appearance } from '@slackwater/domain';

export type Advice = { title: string; todo: readonly { what: string; how: string }[]; source: string };

const SAMPLE = [
  { what: 'Bag kept, labelled', how: 'It cannot be closed as discarded.' },
  { what: 'Sample taken', how: 'Cell count with differential, Gram stain, culture.' },
  { what: 'Blood-culture bottles, 5 to 10 mL each', how: 'before any antibiotic' },
  { what: 'To the laboratory within 6 h', how: 'at 37 °C, not in the cold' },
] as const;

/** What an appearance is taken for and what follows (clinical reference §2, with its sources). Worst first. */
const ADVICE: readonly { on: Appearance; advice: Advice }[] = [
  {
    on: 'brown',
    advice: {
      title: 'Brown or faecal: bowel, an emergency',
      todo: [{ what: 'No fill', how: 'tell the physician at once' }, ...SAMPLE],
      source: 'Teaching text.',
    },
  },
  {
    on: 'green',
    advice: {
      title: 'Green: bile, an emergency',
      todo: [{ what: 'No fill', how: 'tell the physician at once' }, ...SAMPLE],
      source: 'From memory.',
    },
  },
  {
    on: 'cloudy',
    advice: {
      title: 'Cloudy: peritonitis until excluded',
      todo: SAMPLE,
      source: 'RCP review, box 2; ISPD 2022. Tell the physician.',
    },
  },
  {
    on: 'bloody',
    advice: {
      title: 'Bloody: heavy, not clearing or unwell, call',
      todo: [
        {
          what: 'Blood pressure and pulse',
          how: 'tell the physician if it is heavy, does not clear, or the patient is unwell',
        },
      ],
      source: 'Teaching texts. The first exchanges after insertion, menstruation or strain often clear.',
    },
  },
  {
    on: 'milky',
    advice: {
      title: 'Milky: chyle, or peritonitis',
      todo: [{ what: 'Cell count and triglyceride', how: 'keep the bag for the sample' }],
      source: 'J Jpn Soc Dial Ther 1994;28:1179.',
    },
  },
  {
    on: 'pink',
    advice: {
      title: 'Pink: look again at the next drain',
      todo: [],
      source: 'Teaching texts. The first exchanges after insertion, menstruation or strain often clear.',
    },
  },
  {
    on: 'fibrin',
    advice: {
      title: 'Fibrin: a little is accepted',
      todo: [{ what: 'More than a little', how: 'heparin as ordered; look whether the flow is slower' }],
      source: 'Teaching texts.',
    },
  },
];

/** The advice for the gravest of what was seen; null when there is none. */
export const adviceFor = (appearance: readonly Appearance[]): Advice | null =>
  ADVICE.find(({ on }) => appearance.includes(on))?.advice ?? null;
