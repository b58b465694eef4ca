/** The only place that knows what an address looks like. Patterns are for the routes, functions for links. */
export const patterns = {
  home: '/',
  signIn: '/sign-in',
  firstAdministrator: '/first-administrator',
  openWall: '/open-wall',
  hospital: '/hospital',
  audit: '/hospital/audit',
  board: '/ward/:ward',
  wall: '/ward/:ward/wall',
  alerts: '/ward/:ward/alerts',
  setup: '/ward/:ward/setup',
  supplies: '/ward/:ward/supplies',
  importSheet: '/ward/:ward/import',
  kept: '/ward/:ward/kept',
  admit: '/ward/:ward/admit',
  bedside: '/patients/:id/bedside',
  record: '/patients/:id/record',
  prescription: '/patients/:id/prescription',
  observations: '/patients/:id/observations',
  rounds: '/patients/:id/rounds',
  inside: '/patients/:id/inside',
  workUp: '/patients/:id/work-up',
  handedOver: '/patients/:id/handed-over',
} as const;

const ward =
  (tail: string) =>
  (wardId: string): string =>
    `/ward/${encodeURIComponent(wardId)}${tail}`;

const patient =
  (tail: string) =>
  (patientId: string): string =>
    `/patients/${encodeURIComponent(patientId)}${tail}`;

export const paths = {
  home: () => '/',
  /** `back` is the address to return to after signing in. */
  signIn: (back?: string) => (back ? `/sign-in?back=${encodeURIComponent(back)}` : '/sign-in'),
  /** The code stands in the fragment, which no browser sends and no server writes into a log. */
  openWall: (code?: string) => (code ? `/open-wall#${code}` : '/open-wall'),
  hospital: () => '/hospital',
  audit: () => '/hospital/audit',
  board: ward(''),
  wall: ward('/wall'),
  alerts: ward('/alerts'),
  setup: ward('/setup'),
  supplies: ward('/supplies'),
  importSheet: ward('/import'),
  kept: ward('/kept'),
  admit: ward('/admit'),
  bedside: patient('/bedside'),
  record: patient('/record'),
  prescription: patient('/prescription'),
  observations: patient('/observations'),
  rounds: patient('/rounds'),
  inside: patient('/inside'),
  workUp: patient('/work-up'),
  handedOver: patient('/handed-over'),
};
