import type { WardSettings } from '@slackwater/domain';
import { SETTINGS, withChanges } from '@slackwater/domain/ward/settings';

export type SettingKey = keyof WardSettings;
/** What was typed, by setting; a setting that was not touched is not in it. */
export type Typed = Readonly<Partial<Record<SettingKey, string>>>;

export const SETTING_KEYS = Object.keys(SETTINGS) as readonly SettingKey[];

/** What the typed texts would change, and what is wrong with them, by setting. */
export type Read = {
  changes: Readonly<Partial<Record<SettingKey, number>>>;
  problems: Readonly<Partial<Record<SettingKey, string>>>;
};

const NUMBER = /^-?\d+(\.\d+)?$/;

/** A message of the domain names settings by their keys; the screen calls them what it calls their fields. */
const inTheWardsWords = (message: string): string =>
  message.replace(/\b[a-z]\w+\b/g, (word) => (word in SETTINGS ? `“${SETTINGS[word as SettingKey].meaning}”` : word));

/** Reads what was typed against the settings in force: digits, at most one point, in range and in order. */
export const readTyped = (typed: Typed, settings: WardSettings): Read => {
  const changes: Partial<Record<SettingKey, number>> = {};
  const problems: Partial<Record<SettingKey, string>> = {};
  for (const key of SETTING_KEYS) {
    const text = typed[key]?.trim();
    if (text === undefined || text === String(settings[key])) continue;
    const { min, max, unit } = SETTINGS[key];
    if (NUMBER.test(text)) changes[key] = Number(text);
    else problems[key] = `“${text}” is no number here. Write ${min} to ${max} ${unit}, digits alone.`;
  }
  for (const { field, message } of withChanges(settings, changes).problems) {
    problems[field as SettingKey] = inTheWardsWords(message);
  }
  return { changes, problems };
};
