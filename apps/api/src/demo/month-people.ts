// Who lies on the invented ward in the month of month.ts: no person and no number in it is real.

/** What is filled at a clock time of the day; null: the cavity stays empty until the next. */
export type Slot = { at: string; solution: string | null; fillMl: number };

export type Person = {
  number: string;
  family: string;
  given: string;
  born: string;
  gender: string;
  /** Days of October on which the first and the last row stand. */
  from: number;
  to: number;
  day: readonly Slot[];
};

const slot = (at: string, solution: string | null, fillMl: number): Slot => ({ at, solution, fillMl });

/** Four bags a day, the stronger one overnight. */
const fourBags = (fillMl: number, overnight = 'glucose-2.27'): readonly Slot[] => [
  slot('07:40', 'glucose-1.36', fillMl),
  slot('12:20', 'glucose-1.36', fillMl),
  slot('17:10', 'glucose-2.27', fillMl),
  slot('22:15', overnight, fillMl),
];

const threeBags = (fillMl: number): readonly Slot[] => [
  slot('08:05', 'glucose-1.36', fillMl),
  slot('14:30', 'glucose-2.27', fillMl),
  slot('21:45', 'icodextrin-7.5', fillMl),
];

/** Filled by day, empty at night. */
const dryAtNight = (fillMl: number): readonly Slot[] => [
  slot('08:30', 'glucose-2.27', fillMl),
  slot('13:00', 'glucose-1.36', fillMl),
  slot('20:30', null, 0),
];

const person = (
  [number, family, given, born, gender]: readonly [string, string, string, string, string],
  day: readonly Slot[],
  from = 1,
  to = 31,
): Person => ({ number: `AP 30${number}`, family, given, born, gender, from, to, day });

/** Twenty-four invented people, and what each is filled with in a day. */
export const PEOPLE: readonly Person[] = [
  person(['0101', 'ARKWRIGHT-DEAN', 'Sunniva', '1951-03-14', 'female'], fourBags(2000)),
  person(['0118', 'BALODIS', 'Eriks', '1944-09-02', 'male'], fourBags(2000, 'glucose-3.86')),
  person(['0126', 'CHUKWU-PERRY', 'Ifeoma', '1968-12-21', 'female'], fourBags(2500)),
  person(['0133', 'DELACOURT', 'Anselm', '1939-05-30', 'male'], threeBags(2000)),
  person(['0140', 'EASTGATE', 'Philippa', '1957-08-08', 'female'], threeBags(1500)),
  person(['0157', 'FARROKHZAD', 'Kamran', '1961-01-19', 'male'], dryAtNight(2000)),
  person(['0164', 'GWYNNE-ADAMS', 'Tegan', '1949-11-11', 'female'], fourBags(1500)),
  person(['0171', 'HALVORSEN', 'Torbjorn', '1953-04-25', 'male'], fourBags(2000), 3),
  person(['0189', 'INGRAM-SATO', 'Keiko', '1946-07-17', 'female'], threeBags(2000), 5),
  person(['0195', 'JELLICOE', 'Barnaby', '1972-10-06', 'male'], fourBags(2500, 'icodextrin-7.5')),
  person(['0202', 'KOWALCZYK', 'Jadwiga', '1942-02-28', 'female'], dryAtNight(1500)),
  person(['0219', 'LAMPTEY', 'Kojo', '1959-06-03', 'male'], fourBags(2000)),
  person(['0226', 'MERRIDEW', 'Clemency', '1937-12-09', 'female'], threeBags(1500), 1, 19),
  person(['0233', 'NORTHOLT', 'Gideon', '1964-03-27', 'male'], fourBags(2000, 'glucose-3.86'), 1, 24),
  person(['0240', 'OYELARAN', 'Folake', '1955-09-13', 'female'], fourBags(2000)),
  person(['0258', 'PENHALIGON', 'Jory', '1948-01-05', 'male'], threeBags(2000), 8),
  person(['0265', 'QUARTERMAINE', 'Isabeau', '1970-05-22', 'female'], fourBags(2500)),
  person(['0272', 'RASMUSSEN-OKE', 'Dagny', '1962-08-30', 'female'], dryAtNight(2000), 2),
  person(['0280', 'STANNARD', 'Lucian', '1941-10-18', 'male'], fourBags(1500), 1, 28),
  person(['0296', 'THISTLEWOOD', 'Maud', '1936-04-01', 'female'], threeBags(1500)),
  person(['0303', 'UMARJI', 'Danyal', '1966-11-24', 'male'], fourBags(2000), 12),
  person(['0311', 'VANTERPOOL', 'Hezekiah', '1950-02-07', 'male'], fourBags(2000, 'icodextrin-7.5')),
  person(['0328', 'WETHERELL', 'Ottoline', '1958-07-29', 'female'], threeBags(2000), 1, 15),
  person(['0335', 'YARDLEY-CRUZ', 'Mateus', '1973-09-16', 'male'], fourBags(2500), 17),
];
