import type { WardView } from '@slackwater/contract';
import { FINDINGS } from '@slackwater/domain/effluent/finding';
import {
  RESPONSE_MOST_CHARACTERS,
  RESPONSE_PARTS,
  type ResponseKey,
  type ResponsePart,
  withTexts,
} from '@slackwater/domain/effluent/response-texts';
import { RESPONSES, responseTo } from '@slackwater/domain/effluent/responses';
import { useId, useState } from 'react';
import { MARK_WORDS } from '../../components/mark-words.ts';
import { ChangeForm } from './change-form.tsx';
import styles from './responses.module.css';

const PART_WORDS: Record<ResponsePart, string> = {
  doNow: 'What to do now, one act a line',
  tell: 'Whom to tell',
  send: 'What to send',
};

type Typed = Readonly<Partial<Record<ResponseKey, string>>>;

/** What the ward does about each finding, in its own words where it has any; an empty text is the default again. */
export const Responses = ({ ward, mayNot }: { ward: WardView; mayNot: string | null }) => {
  const [typed, setTyped] = useState<Typed>({});
  const { responses } = ward.policy;
  const changes = Object.fromEntries(
    (Object.entries(typed) as [ResponseKey, string][])
      .map(([key, text]) => [key, text === defaultOf(key) ? '' : text] as const)
      .filter(([key, text]) => text !== (responses[key] ?? '')),
  );
  const { problems } = withTexts(responses, changes);
  const count = Object.keys(changes).length;
  return (
    <ChangeForm
      ward={ward}
      changes={changes}
      mayNot={mayNot ?? problems[0]?.message ?? null}
      action={count === 1 ? 'Change 1 text' : `Change ${count} texts`}
      onForget={() => setTyped({})}
      className={styles.form}
    >
      <h2>Responses to findings</h2>
      <p>
        Shown at the moment a finding is entered, and in its alert. At most {RESPONSE_MOST_CHARACTERS} characters each;
        an empty text is the default again.
      </p>
      {FINDINGS.map((finding) => {
        const response = responseTo(finding, ward.policy);
        return (
          <details key={finding} className={styles.response}>
            <summary>
              {response.title}
              {response.wardsOwn.length > 0 && <small> in the ward’s own words</small>}
            </summary>
            {RESPONSE_PARTS.map((part) => {
              const key = `${finding}.${part}` as const;
              return (
                <Lines
                  key={key}
                  label={PART_WORDS[part]}
                  text={typed[key] ?? response[part]}
                  fallback={RESPONSES[finding][part]}
                  readOnly={mayNot !== null}
                  onChange={(text) => setTyped((before) => ({ ...before, [key]: text }))}
                />
              );
            })}
            <p>
              Default {MARK_WORDS[response.mark]}. {response.source}
            </p>
          </details>
        );
      })}
    </ChangeForm>
  );
};

const defaultOf = (key: ResponseKey): string => {
  const [finding, part] = key.split('.') as [keyof typeof RESPONSES, ResponsePart];
  return RESPONSES[finding][part];
};

type LinesProps = {
  label: string;
  text: string;
  fallback: string;
  readOnly: boolean;
  onChange: (text: string) => void;
};

const Lines = ({ label, text, fallback, readOnly, onChange }: LinesProps) => {
  const id = useId();
  return (
    <div className={styles.lines}>
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        rows={Math.max(2, text.split('\n').length)}
        value={text}
        maxLength={RESPONSE_MOST_CHARACTERS}
        readOnly={readOnly}
        aria-describedby={text === fallback ? undefined : `${id}-default`}
        onChange={(event) => onChange(event.target.value)}
      />
      {text !== fallback && <small id={`${id}-default`}>Default: {fallback === '' ? 'none' : fallback}</small>}
    </div>
  );
};
