/** Why somebody is called before a strong bag. */
export type PressureDoubt = 'pressureTooLow' | 'pressureTooOld';
