import { policyIn } from '@slackwater/domain/testing/bedside';
import { formatClock } from '@slackwater/domain/words/numbers';
import { describe, expect, it } from 'vitest';
import { type AwayDraft, awayProblems, missingOfAway, noAway, readAway } from './away-draft.ts';

const zone = 'Europe/London';
const policy = policyIn(zone);
const NOW = Date.UTC(2026, 10, 25, 12, 0, 40);
const at = (hours: number, minutes: number) => Date.UTC(2026, 10, 25, hours, minutes);
const clock = (of: number) => formatClock(of, zone);

const typed = (drainBy: string, leavesAt: string, backAt: string): AwayDraft => {
  const none = noAway('2026-11-25');
  const time = (of: string) => ({ ...none.drainBy, clock: of });
  return {
    ...none,
    where: 'imaging ',
    why: 'tip',
    drainBy: time(drainBy),
    leavesAt: time(leavesAt),
    backAt: time(backAt),
  };
};
const context = { now: NOW, zone, isEmpty: false };
const problems = (draft: AwayDraft) => awayProblems(readAway(draft, context)!, NOW, policy, clock);

describe('the form of theatre or imaging', () => {
  it('is one order: drained by, away, empty until back', () => {
    expect(readAway(typed('13:30', '14:00', '15:30'), context)).toEqual({
      what: 'drainAndStayEmpty',
      drainBy: at(13, 30),
      emptyUntil: at(15, 30),
      away: { where: 'imaging', why: 'tip', leavesAt: at(14, 0), backAt: at(15, 30) },
    });
  });
  it('takes the minute that runs for now, and with an empty cavity asks for no drain', () => {
    const order = readAway(typed('', '12:00', '15:30'), { ...context, isEmpty: true });
    expect(order).toMatchObject({ drainBy: NOW, away: { leavesAt: NOW } });
    expect(awayProblems(order!, NOW, policy, clock)).toEqual({});
    expect(problems(typed('11:59', '14:00', '15:30')).drainBy).toContain('11:59 is not possible');
  });
  it('says at each field what is wrong, with the value and what is allowed', () => {
    expect(problems(typed('14:10', '14:00', '13:50'))).toEqual({
      drainBy: '14:10 is too late; allowed is up to 14:00, when the patient leaves.',
      backAt: '13:50 is too early; allowed is after 14:00, when the patient leaves.',
    });
  });
  it('is no order while something is missing, and says what', () => {
    expect(readAway(noAway('2026-11-25'), context)).toBeNull();
    expect(missingOfAway(noAway('2026-11-25'), context)).toEqual([
      'where to',
      'what for',
      'drain by',
      'leaves at',
      'expected back',
    ]);
    expect(missingOfAway(typed('', '14:00', '15:30'), { ...context, isEmpty: true })).toEqual([]);
  });
});
