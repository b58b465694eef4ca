/** Completed years between two calendar dates `YYYY-MM-DD`; born on 29 February is a year older on 1 March. */
export const yearsOld = (born: string, today: string): number => {
  const years = Number(today.slice(0, 4)) - Number(born.slice(0, 4));
  return today.slice(5) < born.slice(5) ? years - 1 : years;
};
