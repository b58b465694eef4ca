import { DEFAULT_SETTINGS, SETTINGS } from '@slackwater/domain/ward/settings';
import { describe, expect, it } from 'vitest';
import { readTyped } from './typed-changes.ts';

describe('settings as typed', () => {
  it('are changes only where they differ', () => {
    const same = String(DEFAULT_SETTINGS.residualMl);
    expect(readTyped({ residualMl: same, flushMl: '120' }, DEFAULT_SETTINGS)).toEqual({
      changes: { flushMl: 120 },
      problems: {},
    });
  });

  it.each(['', '2,000', '1e3', 'none', '0x10', '1.2.3'])('refuse “%s” and name the range', (text) => {
    const { changes, problems } = readTyped({ residualMl: text }, DEFAULT_SETTINGS);
    expect(changes).toEqual({});
    expect(problems.residualMl).toContain('0 to 1000 mL');
  });

  it('refuse a value out of range with the value and the range', () => {
    const { problems } = readTyped({ residualMl: '5000' }, DEFAULT_SETTINGS);
    expect(problems.residualMl).toMatch(/5000.*0 to 1000 mL/);
  });

  it('refuse an order that cannot be: asking above stopping', () => {
    const { problems } = readTyped(
      { guardAskPercent: String(DEFAULT_SETTINGS.guardStopPercent + 1) },
      DEFAULT_SETTINGS,
    );
    expect(problems.guardAskPercent).toContain(`“${SETTINGS.guardStopPercent.meaning}”`);
    expect(problems.guardAskPercent).not.toContain('guard');
  });
});
