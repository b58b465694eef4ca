import type { WardView } from '@slackwater/contract';
import { ALERT_KINDS, ALERT_TITLES, type AlertKind } from '@slackwater/domain/alert/alert';
import { ALERT_RULES } from '@slackwater/domain/alert/rules';
import { SETTINGS } from '@slackwater/domain/ward/settings';
import { useState } from 'react';
import { RANK_WORDS } from '../../../components/alert-flag/alert-flag.tsx';
import { MARK_WORDS } from '../../../components/mark-words.ts';
import about from './about-alerts.module.css';
import styles from './the-rules.module.css';

type SettingName = keyof typeof SETTINGS;

const withUnit = (name: SettingName, value: number): string =>
  `${value.toLocaleString('en-GB')} ${SETTINGS[name].unit}`;

/** "(default 10 %, common practice)", with its source where that says more than the mark. */
const defaultOf = (name: SettingName): string => {
  const { default: byDefault, mark, source } = SETTINGS[name];
  const more = source.toLowerCase() === MARK_WORDS[mark] ? '' : `; ${source}`;
  return `(default ${withUnit(name, byDefault)}, ${MARK_WORDS[mark]}${more})`;
};

/** Every rule that can raise an alert, from the domain's own table, with the ward's settings as they are now. */
export const TheRules = ({ ward }: { ward: WardView }) => {
  const [open, setOpen] = useState(false);
  return (
    <details className={about.wide} open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary className={styles.summary}>About the rules: {ALERT_KINDS.length}, with what this ward has set</summary>
      {open && (
        <>
          <p className={about.source}>
            Settings version {ward.policy.version} is in force; each alert says under which it was raised.
          </p>
          <dl className={styles.rules}>
            {ALERT_KINDS.map((kind) => (
              <Rule key={kind} kind={kind} ward={ward} />
            ))}
          </dl>
        </>
      )}
    </details>
  );
};

const Rule = ({ kind, ward }: { kind: AlertKind; ward: WardView }) => {
  const { ranks, when, ends, settings, source } = ALERT_RULES[kind];
  return (
    <div className={styles.rule} data-rule={kind}>
      <dt>
        <b>{ALERT_TITLES[kind]}</b>
        <span>{ranks.map((rank) => RANK_WORDS[rank]).join(' or ')}</span>
      </dt>
      <dd>
        {when} <span>Ends: {ends}</span>
      </dd>
      <dd>
        {settings.length === 0 && 'Rests on no setting of the ward.'}
        {settings.map((name) => (
          <p key={name}>
            {SETTINGS[name].meaning}: <b>{withUnit(name, ward.policy.settings[name])}</b> <span>{defaultOf(name)}</span>
          </p>
        ))}
      </dd>
      <dd>
        <span>{source}</span>
      </dd>
    </div>
  );
};
