import type { Role } from '@slackwater/domain';

export const ROLE_WORDS: Record<Role, string> = {
  nurse: 'nurse',
  chargeNurse: 'charge nurse',
  nephrologist: 'nephrologist',
  manager: 'manager',
  wall: 'wall display',
};
