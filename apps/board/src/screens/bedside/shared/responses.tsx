import type { Finding, WardPolicy } from '@slackwater/domain';
import { responseTo } from '@slackwater/domain/effluent/responses';
import { Source } from './facts.tsx';
import styles from './responses.module.css';
import { Tick } from './tick.tsx';

type ResponsesProps = {
  /** The gravest first. */
  findings: readonly Finding[];
  policy: WardPolicy;
  /** What was ticked as done. */
  done: readonly string[];
  onDone: (done: readonly string[]) => void;
};

/** What the ward has decided for each finding: what to do now, what to send, whom to tell, and where that is from. */
export const Responses = ({ findings, policy, done, onDone }: ResponsesProps) =>
  findings.map((finding) => {
    const { title, doNow, send, tell, source, wardsOwn } = responseTo(finding, policy);
    const acts = doNow.split('\n').filter((line) => line.trim() !== '');
    const tick = (what: string) => (ticked: boolean) =>
      onDone(ticked ? [...done, what] : done.filter((one) => one !== what));
    return (
      <section key={finding} className={styles.response} aria-label={title}>
        <h2>{title}</h2>
        <ul>
          {acts.map((act) => (
            <li key={act}>
              <Tick checked={done.includes(act)} onChange={tick(act)}>
                <b>{act}</b>
              </Tick>
            </li>
          ))}
          {send && (
            <li>
              <Tick checked={done.includes('Sent')} onChange={tick('Sent')}>
                <b>Send</b> <small>{send}</small>
              </Tick>
            </li>
          )}
        </ul>
        {tell && (
          <p>
            Tell: <b>{tell}</b>
          </p>
        )}
        <Source>
          {source}
          {wardsOwn.length > 0 && ` In the ward’s own words, settings version ${policy.version}.`}
        </Source>
      </section>
    );
  });
