import type { Override } from '@slackwater/domain';
import { checkBag, stops } from '@slackwater/domain/solution/bag-check';
import { readPrintedExpiry } from '@slackwater/domain/solution/label/dates';
import { formatMl } from '@slackwater/domain/words/numbers';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Button } from '../../../ui/button.tsx';
import { readDigits } from '../../../ui/digits.ts';
import { NumberField } from '../../../ui/number-field.tsx';
import { useBedside } from '../bedside-context.ts';
import { useDespite } from '../empty/use-despite.ts';
import { givenInVisit, wantedInVisit } from '../model/wanted.ts';
import { BagDetails, typedLotProblem } from '../prepare/bag-details.tsx';
import { BagMatrix } from '../prepare/bag-matrix.tsx';
import { UsedAllTheSame } from '../prepare/bag-notes.tsx';
import { InHand } from '../prepare/in-hand.tsx';
import { bagKey } from '../prepare/prepare-draft.ts';
import { allStopWords } from '../prepare/stop-words.ts';
import { Acts } from '../shared/acts.tsx';
import { Heading } from '../shared/heading.tsx';
import styles from './fill.module.css';
import { startFillAct } from './fill-act.ts';
import { UseAllTheSame } from './use-all-the-same.tsx';

/** Another bag on the same visit: the rest of a stopped fill, or a second bag; checked like the first. */
export const SecondBag = () => {
  const { state, policy, view, record, sending, back } = useBedside();
  const ordered = wantedInVisit(state, policy);
  // What was ordered into the bag went in with its first part: what follows is plain.
  const wanted = ordered && { ...ordered, additives: [] };
  const { despite } = useDespite(ordered?.orderId ?? null);
  const given = givenInVisit(state);
  const rest = wanted && given.volumeMl !== null ? Math.max(0, wanted.fillMl - given.volumeMl) : null;
  const [draft, setDraft, forget] = useDraft(`second-bag:${state.visit?.id ?? ''}:${given.fills}`, {
    bag: null as { solutionId: string; labelledMl: number } | null,
    volume: rest ? String(rest) : '',
    expiresOn: '',
    lot: '',
    /** Going on against a stop, and for which bag. */
    override: null as (Override & { bag: string }) | null,
  });
  if (!wanted || rest === 0)
    return (
      <>
        <Heading title={wanted ? 'All that is prescribed is in' : 'No fill is prescribed'} />
        <p className="quiet">More needs an order of the physician.</p>
        <Acts>
          <Button onPress={back}>Back</Button>
        </Acts>
      </>
    );
  if (!draft.bag)
    return (
      <>
        <Heading title="Which bag is in your hand?" />
        <p className="quiet">
          {given.fills > 0 && given.volumeMl !== null
            ? `${formatMl(given.volumeMl)} of ${formatMl(wanted.fillMl)} are in.`
            : 'Touch what its label says, strength and amount.'}
        </p>
        <BagMatrix
          formulary={policy.formulary}
          onChoose={(solutionId, labelledMl) => setDraft({ ...draft, bag: { solutionId, labelledMl } })}
        />
        <Acts>
          <Button onPress={back}>Back</Button>
        </Acts>
      </>
    );
  const range = { least: 1, most: Math.min(draft.bag.labelledMl, rest ?? wanted.fillMl), unit: 'mL' };
  const volumeMl = readDigits(draft.volume, range).value;
  const expiry = readPrintedExpiry(draft.expiresOn ?? '');
  const lot = (draft.lot ?? '').trim();
  const bag = {
    ...draft.bag,
    expiresOn: expiry === 'wrong' ? null : expiry,
    lot: lot || null,
    read: 'typed' as const,
  };
  const rows = checkBag(
    bag,
    { solutionId: wanted.solutionId, fillMl: volumeMl ?? wanted.fillMl },
    policy,
    serverClock.now(),
  );
  const said = draft.override;
  const override = said?.bag === bagKey(bag) ? { reason: said.reason, physician: said.physician } : null;
  // By role one goes on with an expired or a recalled bag; another fluid or too little of it is another bag's.
  const stopped = rows.filter(stops);
  const passable = stopped.filter(({ check }) => check === 'expiry' || check === 'lot');
  const wrong = stopped.find((row) => override === null || !passable.includes(row));
  const why = allStopWords(passable, bag, wanted, policy.formulary);
  const start = async () => {
    if (volumeMl === null) return;
    const at = serverClock.now();
    const about = { bag, wanted, prescribedMl: volumeMl, flushMl: 0, at };
    if (await record([startFillAct({ ...about, guardOverride: null, bagOverride: override, despite })])) {
      forget();
      back();
    }
  };
  return (
    <>
      <Heading title="The same patient, the right bag?" />
      <InHand patient={view.patient} rows={rows} />
      {why !== '' &&
        (override ? (
          <UsedAllTheSame why={why} reason={override.reason} />
        ) : (
          <UseAllTheSame
            why={why}
            onOverride={(next) => setDraft({ ...draft, override: { ...next, bag: bagKey(bag) } })}
          />
        ))}
      <BagDetails
        draft={{ expiresOn: draft.expiresOn ?? '', lot: draft.lot ?? '' }}
        wrong={expiry === 'wrong'}
        onChange={(part) => setDraft({ ...draft, ...part })}
      />
      <div className={styles.words}>
        <NumberField
          label="To run in from this bag"
          typed={draft.volume}
          onTyped={(volume) => setDraft({ ...draft, volume })}
          {...range}
          large
        />
      </div>
      <Acts>
        <Button
          tone="main"
          onPress={() => void start()}
          disabledBecause={
            sending
              ? 'being sent'
              : wrong
                ? (wrong.say ?? 'not with this bag')
                : expiry === 'wrong'
                  ? 'the expiry is no date'
                  : typedLotProblem(lot)
                    ? 'the lot cannot be one'
                    : volumeMl === null
                      ? 'the volume is missing'
                      : null
          }
        >
          {override ? 'The rest is right: fill has started' : 'All six are right: fill has started'}
        </Button>
        <Button onPress={() => setDraft({ ...draft, bag: null, expiresOn: '', lot: '', override: null })}>
          Other bag
        </Button>
        <Button onPress={back}>Back</Button>
      </Acts>
    </>
  );
};
