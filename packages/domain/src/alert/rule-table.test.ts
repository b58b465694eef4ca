import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyBedside } from '../testing/arbitrary.ts';
import { LONDON } from '../testing/bedside.ts';
import { SETTINGS } from '../ward/settings.ts';
import { ALERT_KINDS, ALERT_RANKS, ALERT_TITLES } from './alert.ts';
import { ALERT_RULES } from './rules.ts';

/** The ward's policy, noting which of its numbers are looked at. */
function watched() {
  const read = new Set<string>();
  const settings = new Proxy(LONDON.settings, {
    get(target, name) {
      read.add(String(name));
      return Reflect.get(target, name);
    },
  });
  return { policy: { ...LONDON, settings }, read };
}

describe.each(ALERT_KINDS)('the rule of %s', (kind) => {
  const rule = ALERT_RULES[kind];

  it('says when it is raised, what ends it, and where it is from', () => {
    for (const words of [ALERT_TITLES[kind], rule.when, rule.ends, rule.source])
      expect(words).toMatch(/^[A-Z].*[a-z.)"]$/);
  });

  it('names settings that the ward has, ranks from the gravest down, and nothing twice', () => {
    for (const name of rule.settings) expect(SETTINGS).toHaveProperty(name);
    expect(new Set(rule.settings).size).toBe(rule.settings.length);
    expect(rule.ranks).toEqual(ALERT_RANKS.filter((rank) => rule.ranks.includes(rank)));
    expect(rule.ranks.length).toBeGreaterThan(0);
  });

  it('looks at no setting and raises with no rank that it does not name', () => {
    fc.assert(
      fc.property(anyBedside, (bedside) => {
        const { policy, read } = watched();
        const spans = rule.spans(bedside, policy);
        for (const { rank } of spans) expect(rule.ranks).toContain(rank);
        expect(rule.settings).toEqual(expect.arrayContaining([...read]));
      }),
      { numRuns: 300 },
    );
  });
});
