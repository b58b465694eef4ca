import type { Override } from '@slackwater/domain';
import { guardFill } from '@slackwater/domain/cavity/guard';
import { pressureQuestion } from '@slackwater/domain/exchange/pressure-first';
import { openWorkUp } from '@slackwater/domain/peritonitis/work-up';
import { standingOf } from '@slackwater/domain/peritonitis/work-up-standing';
import { standingWords } from '@slackwater/domain/peritonitis/work-up-words';
import { orderedAdditivesWords } from '@slackwater/domain/prescription/additive-words';
import { stayEmptyOf, stayEmptyWords } from '@slackwater/domain/prescription/stay-empty';
import { checkBag } from '@slackwater/domain/solution/bag-check';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatMl } from '@slackwater/domain/words/numbers';
import { Link } from 'react-router';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { useMinute } from '../../../live/now.ts';
import { paths } from '../../../paths.ts';
import { Button } from '../../../ui/button.tsx';
import { readDigits } from '../../../ui/digits.ts';
import { NumberField } from '../../../ui/number-field.tsx';
import { useBedside } from '../bedside-context.ts';
import { NotLooked } from '../drain/not-looked.tsx';
import { DespiteNote } from '../empty/despite-note.tsx';
import { OrderedEmpty } from '../empty/ordered-empty.tsx';
import { useDespite } from '../empty/use-despite.ts';
import { PressureFirst } from '../first/pressure-first.tsx';
import { act } from '../model/batch.ts';
import { wantedInVisit } from '../model/wanted.ts';
import { appearanceWords, insideWords, mustKeep } from '../model/words.ts';
import { UsedAllTheSame } from '../prepare/bag-notes.tsx';
import { bagKey } from '../prepare/prepare-draft.ts';
import { allStopWords } from '../prepare/stop-words.ts';
import { DrainAgain } from '../reading/reading.tsx';
import { Acts } from '../shared/acts.tsx';
import { By, Heading } from '../shared/heading.tsx';
import { Undo } from '../shared/undo.tsx';
import { Ago, useAgo } from '../shared/when.tsx';
import { CheckedFill } from './checked-fill.tsx';
import styles from './fill.module.css';
import { startFillAct } from './fill-act.ts';
import { GuardPanel, GuardQuestion } from './guard-panel.tsx';
import { stopsSince } from './stops-since.ts';
import { UseAllTheSame } from './use-all-the-same.tsx';

/** Block 4 before it runs: the seal, a look for a leak, the flush; and the guard, which may not offer the fill. */
export const FillReady = () => {
  const { state, policy, ward, patientId, clock, record, sending, open, mayDo } = useBedside();
  const visit = state.visit;
  const now = useMinute();
  const since = visit?.since ?? null;
  const started = useAgo(since);
  const wanted = wantedInVisit(state, policy);
  const stayEmpty = useDespite(wanted?.orderId ?? null);
  const [overridden, override] = useDraft<(Override & { bag: string }) | null>(`fill-bag:${visit?.id ?? ''}`, null);
  const [flush, setFlush, forget] = useDraft(`flush:${visit?.id ?? ''}`, String(policy.settings.flushMl));
  if (!visit) return null;

  const strength = solutionOf(policy.formulary, visit.bag?.solutionId ?? null)?.strength;
  const drained = visit.drains.length > 0;
  const seen = visit.drains.flatMap((drain) => drain.appearance);
  const keep = mustKeep(seen);
  const workUp = openWorkUp(state.workUps);
  if (!wanted || !visit.bag)
    return (
      <>
        <Heading title={wanted ? 'No bag was checked' : 'No fill is prescribed'} />
        <p className={styles.words}>
          {wanted
            ? 'This visit was prepared as a drain only.'
            : state.hold
              ? `On hold: ${state.hold.reason}. The drain is done; nothing is filled.`
              : 'There is no prescription in force, and no order names a bag.'}
        </p>
        <Acts>
          <Button tone="main" onPress={() => open('leaveEmpty')}>
            Close without fill
          </Button>
          {drained && <DrainAgain />}
          <Undo />
        </Acts>
      </>
    );

  if (stayEmpty.order && stayEmpty.isStopped)
    return (
      <>
        <Heading title={drained ? 'Drained: no fill now' : 'No fill now'}>
          <Undo />
        </Heading>
        <OrderedEmpty order={stayEmpty.order} wanted={wanted} onDespite={stayEmpty.goOn}>
          <Button tone="main" onPress={() => open(drained ? 'leaveEmpty' : 'stop')}>
            {drained ? 'Close without fill' : 'Stop exchange'}
          </Button>
          {drained && <DrainAgain />}
        </OrderedEmpty>
      </>
    );
  const despite = stayEmpty.order && <DespiteNote order={stayEmpty.order} reason={stayEmpty.despite?.reason} />;
  const later = stayEmpty.order ? null : stayEmptyOf(state);

  const guard = guardFill(state, wanted.fillMl, policy);
  const question = pressureQuestion(state, visit.bag.solutionId, now, visit.id, policy);
  const first = question && (
    <PressureFirst
      question={question}
      onAnswer={(answer) => void record([act('calledFirst', answer, serverClock.now())])}
    />
  );
  if (guard.offer === 'no')
    return (
      <>
        <Heading title={drained ? 'Drained' : 'Before the fill'}>
          <Undo />
        </Heading>
        {despite}
        <GuardPanel guard={guard} />
        {first}
        <Acts>
          <DrainAgain tone="main" />
          <Button disabledBecause="see why above">Fill {formatMl(wanted.fillMl)}</Button>
        </Acts>
      </>
    );

  const againstCheck = allStopWords(
    checkBag(visit.bag, wanted, policy, visit.startedAt),
    visit.bag,
    wanted,
    policy.formulary,
  );
  const range = { least: 0, most: policy.settings.flushMostMl, unit: 'mL' };
  const flushMl = readDigits(flush, range).value;
  const bag = visit.bag;
  const stopped = stopsSince(bag, wanted, policy, { checkedAt: visit.startedAt, now: serverClock.now() });
  const stoppedWords = allStopWords(stopped, bag, wanted, policy.formulary);
  const bagOverride = overridden?.bag === bagKey(bag) ? overridden : null;
  const start = async (checked?: { id: string; at: () => number }) => {
    const filling = startFillAct({
      bag,
      wanted,
      prescribedMl: wanted.fillMl,
      flushMl: flushMl ?? 0,
      guardOverride: null,
      bagOverride: bagOverride && { reason: bagOverride.reason, physician: bagOverride.physician },
      despite: stayEmpty.despite,
      at: checked ? checked.at() : started.at(),
      ...(checked ? { id: checked.id } : {}),
    });
    if (await record([filling])) forget();
  };
  const startButton = (checked?: { id: string; at: () => number }) => (
    <Button
      tone="main"
      onPress={() => void start(checked)}
      disabledBecause={
        sending
          ? 'being sent'
          : stoppedWords !== '' && !bagOverride
            ? 'not with this bag'
            : !mayDo('recordExchange') && !bagOverride && !stayEmpty.despite
              ? 'the nurse fills: not in your role'
              : question
                ? 'a strong bag: call first'
                : flushMl === null
                  ? 'the flush is missing: 0 for none'
                  : null
      }
    >
      {guard.offer === 'ask'
        ? 'Yes, drained; seal broken, no leak: fill has started'
        : 'Seal broken, no leak: fill has started'}
    </Button>
  );
  return (
    <>
      <Heading title={`Fill ${formatMl(wanted.fillMl)} of ${strength ?? bag.solutionId}`} />
      {bag.labelledMl > wanted.fillMl && (
        <p className={styles.stopAt}>
          <b>Stop at {formatMl(wanted.fillMl)}.</b> The bag holds {formatMl(bag.labelledMl)}.
        </p>
      )}
      {later && (
        <p className={styles.stopAt}>
          <b>By order: {stayEmptyWords(later, { state: 'holding' }, clock)}.</b> This fill is drained by then.
        </p>
      )}
      {despite}
      {againstCheck && <UsedAllTheSame why={againstCheck} />}
      {stoppedWords !== '' &&
        (bagOverride ? (
          <UsedAllTheSame why={stoppedWords} reason={bagOverride.reason} />
        ) : (
          <UseAllTheSame why={stoppedWords} onOverride={(said) => override({ ...said, bag: bagKey(bag) })} />
        ))}
      {wanted.additives.length > 0 && (
        <p className={styles.words}>
          In the bag: <b>{orderedAdditivesWords(wanted.additives)}</b>
        </p>
      )}
      <NotLooked />
      <By>Before it runs</By>
      <ul className={styles.statements}>
        <li>
          Outlet seal broken
          {(solutionOf(policy.formulary, bag.solutionId)?.chambers ?? 1) > 1 ? ', chambers mixed' : ''}
        </li>
        <li>No leak seen</li>
        <li>
          <NumberField label="Flushed into the drain bag" typed={flush} onTyped={setFlush} {...range} />
        </li>
      </ul>
      <p className={styles.words}>
        Probably inside: <b>{insideWords(state.inside)}</b>
        {guard.peakMl !== null && `; at its fullest about ${formatMl(Math.round(guard.peakMl / 10) * 10)}`}
      </p>
      {keep && (
        <div className={styles.stopAt}>
          <b>It was {appearanceWords(seen)}: keep the bag.</b>
          <p>
            {workUp
              ? `${standingWords(standingOf(workUp, state.comforts), ward.zone)}.`
              : 'Sample, laboratory, physician told?'}
          </p>
          <div className={styles.stopWays}>
            {workUp && <Link to={paths.workUp(patientId)}>Sample, results, who was told</Link>}
            <Button tone="text" onPress={() => open('looks')}>
              What to do, whom told
            </Button>
          </div>
        </div>
      )}
      {guard.offer === 'ask' && <GuardQuestion guard={guard} />}
      {first}
      {wanted.additives.length === 0 && <Ago label="Fill started" ago={started} notBefore={since} />}
      {wanted.additives.length > 0 && (
        <CheckedFill bag={bag} wanted={wanted}>
          {(checked) => <Acts afterList>{startButton(checked)}</Acts>}
        </CheckedFill>
      )}
      <Acts afterList>
        {wanted.additives.length === 0 && startButton()}
        {drained && <DrainAgain />}
        <Undo />
      </Acts>
    </>
  );
};
