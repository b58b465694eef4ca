/** Why a work-up ended. */
export type WorkUpConclusion = 'peritonitis' | 'notPeritonitis' | 'other';

/** What the laboratory is asked for. */
export const SAMPLE_TESTS = ['cellCount', 'gramStain', 'culture', 'triglyceride', 'amylase'] as const;
export type SampleTest = (typeof SAMPLE_TESTS)[number];
