import { pressureQuestion } from '@slackwater/domain/exchange/pressure-first';
import { bagFor } from '@slackwater/domain/prescription/bag-for';
import { fillAgainst } from '@slackwater/domain/prescription/stay-empty';
import { checkBag, stops } from '@slackwater/domain/solution/bag-check';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { readPrintedExpiry } from '@slackwater/domain/solution/label/dates';
import { serverClock } from '../../../api/clock.ts';
import { newId } from '../../../api/ids.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { useMinute } from '../../../live/now.ts';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { DespiteNote } from '../empty/despite-note.tsx';
import { OrderedEmpty } from '../empty/ordered-empty.tsx';
import { GlucoseFirst } from '../first/glucose-first.tsx';
import { PressureFirst } from '../first/pressure-first.tsx';
import { act } from '../model/batch.ts';
import { Acts } from '../shared/acts.tsx';
import { By, Heading } from '../shared/heading.tsx';
import { useTop } from '../shared/use-top.ts';
import { BagDetails, typedLotProblem } from './bag-details.tsx';
import { BagMatrix } from './bag-matrix.tsx';
import { LargerBag, UsedAllTheSame } from './bag-notes.tsx';
import { EyeList } from './eye-list.tsx';
import { InHand } from './in-hand.tsx';
import { Mismatch } from './mismatch.tsx';
import { prepareAct } from './prepare-act.ts';
import {
  bagKey,
  EMPTY_PREPARE,
  type EyeCheck,
  overrideOf,
  type PrepareDraft,
  proposedPurpose,
  typedOver,
} from './prepare-draft.ts';
import { PrescribedCondition } from './prescribed-condition.tsx';
import { PurposeChoice } from './purpose-choice.tsx';
import { ScanField } from './scan/scan-field.tsx';
import { ScanSaid, WrongWristband } from './scan/scan-said.tsx';
import { useScans } from './scan/use-scans.ts';
import { allStopWords } from './stop-words.ts';

/** Block 1: the right patient, the right bag. */
export const Prepare = () => {
  const bedside = useBedside();
  const { state, policy, view, patientId, session, record, sending, mayDo } = bedside;
  const now = useMinute();
  const [draft, setDraft, forget] = useDraft<PrepareDraft>(
    `prepare:${patientId}:${state.head ?? 'first'}`,
    EMPTY_PREPARE,
  );
  const change = (part: Partial<PrepareDraft>) => setDraft({ ...draft, ...part });
  useTop(draft.bag === null ? 'which bag' : 'this bag');

  const wanted = bagFor(state, policy);
  const purpose = draft.purpose ?? proposedPurpose(state, wanted !== null);
  const needsBag = purpose !== 'drainOnly';
  const expiry = readPrintedExpiry(draft.expiresOn);
  const bag =
    needsBag && draft.bag
      ? {
          ...draft.bag,
          expiresOn: expiry === 'wrong' ? null : expiry,
          lot: draft.lot.trim() || null,
          ...(draft.label === undefined
            ? { read: 'typed' as const }
            : { read: 'scanned' as const, label: draft.label }),
        }
      : null;
  const rows = bag && wanted ? checkBag(bag, wanted, policy, serverClock.now()) : [];
  const scans = useScans(draft, setDraft);
  const scanSaid = (
    <>
      {scans.last && <ScanSaid scan={scans.last} onListed={scans.again} />}
      {draft.wristband?.whose === 'other' && (
        <WrongWristband bed={draft.wristband.bed} onAgain={scans.forgetWristband} />
      )}
    </>
  );
  const solution = solutionOf(policy.formulary, bag?.solutionId ?? null);

  const wristbandScanned = draft.wristband?.whose === 'this';
  const override = overrideOf(draft, bag);
  const emptyOrder = needsBag && wanted ? fillAgainst(state, wanted.orderId, serverClock.now(), policy.settings) : null;
  const despite = emptyOrder && draft.despite?.orderId === emptyOrder.orderId ? draft.despite : null;
  const keep = async () => {
    const at = serverClock.now();
    const notSo = draft.notSo;
    const prepared = prepareAct({ purpose, wristbandScanned, bag, wanted, notSo, solution, override, despite, at });
    const called = draft.called === null ? [] : [act('calledFirst', draft.called, at)];
    if (await record([...called, prepared], newId())) forget();
  };

  const drainOnly = (
    <Button
      tone="main"
      onPress={() => change({ purpose: 'drainOnly' })}
      disabledBecause={state.cavity.state === 'empty' ? 'the cavity is empty' : null}
    >
      Prepare a drain only
    </Button>
  );
  if (needsBag && !wanted)
    return (
      <>
        <Heading title="No fill is prescribed">
          <PurposeChoice purpose={purpose} onChange={(next) => change({ purpose: next })} />
        </Heading>
        <p>
          {state.hold
            ? `On hold: ${state.hold.reason}`
            : 'There is no prescription in force, and no order names a bag.'}
        </p>
        <Acts>{drainOnly}</Acts>
      </>
    );

  if (emptyOrder && wanted && !despite)
    return (
      <>
        <Heading title="No fill now" />
        <OrderedEmpty order={emptyOrder} wanted={wanted} onDespite={(said) => change({ despite: said })}>
          {drainOnly}
        </OrderedEmpty>
      </>
    );

  const condition = needsBag && wanted && <PrescribedCondition wanted={wanted} />;
  const despiteNote = emptyOrder && despite && <DespiteNote order={emptyOrder} reason={despite.reason} />;
  if (needsBag && !bag)
    return (
      <>
        <Heading title="Which bag is in hand?">
          <PurposeChoice purpose={purpose} onChange={(next) => change({ purpose: next })} />
        </Heading>
        {despiteNote}
        {condition}
        <ScanField onScan={scans.read} />
        {scanSaid}
        <p className="quiet">Or touch what its label says, strength and amount.</p>
        <BagMatrix
          formulary={policy.formulary}
          onChoose={(solutionId, labelledMl) => change({ bag: { solutionId, labelledMl } })}
        />
      </>
    );

  const asked = bag && pressureQuestion(state, bag.solutionId, now, null, policy);
  const question = draft.called === null ? asked : null;
  const first = (
    <>
      {question && <PressureFirst question={question} onAnswer={(called) => change({ called })} />}
      {asked && draft.called && (
        <p>
          Called first: {draft.called.whom ?? session.account.name}, “{draft.called.words}”.
        </p>
      )}
      {needsBag && <GlucoseFirst />}
    </>
  );
  const unread = rows.find((row) => row.verdict === 'unread');
  const stopped = override === null && rows.some((row) => stops(row) && row !== unread);
  const otherBag = () => {
    scans.forget();
    const { purpose: said, wristband, despite: passed } = draft;
    setDraft({ ...EMPTY_PREPARE, purpose: said, ...(wristband && { wristband }), ...(passed && { despite: passed }) });
  };
  if (stopped && bag && wanted)
    return (
      <>
        <Heading title="Not this bag" />
        {draft.wristband?.whose === 'other' && (
          <>
            <ScanField onScan={scans.read} />
            {scanSaid}
          </>
        )}
        <InHand patient={view.patient} rows={rows} wristbandScanned={wristbandScanned} />
        {condition}
        <Mismatch
          rows={rows}
          bag={bag}
          wanted={wanted}
          onOtherBag={otherBag}
          onOverride={(said) => change({ override: { ...said, bag: bagKey(bag) } })}
        />
      </>
    );

  const chambers = (solution?.chambers ?? 1) > 1;
  const checks: { check: EyeCheck; number: string; statement: string }[] = [
    ...(wristbandScanned
      ? []
      : [{ check: 'wristband', number: '', statement: 'Wristband says this name and birth date' } as const]),
    ...(bag
      ? ([
          ...(bag.expiresOn === null
            ? [{ check: 'expiry', number: '3', statement: 'Expiry is today or later' } as const]
            : []),
          { check: 'noLeak', number: '4', statement: 'No leak when squeezed, seal whole' },
          { check: 'clear', number: '5', statement: 'Clear, no particles' },
          { check: 'warmed', number: '6', statement: 'Warmed by dry heat' },
          ...(chambers ? [{ check: 'mixed', number: '', statement: 'Chambers mixed' } as const] : []),
        ] as const)
      : []),
  ];
  const folded = bag !== null && draft.wristband?.whose !== 'other';
  const against = checks.find((one) => draft.notSo.includes(one.check));
  return (
    <>
      <Heading title={bag ? 'Right patient, right bag?' : 'Right patient?'}>
        {!bag && <PurposeChoice purpose={purpose} onChange={(next) => change({ purpose: next })} />}
        <ScanField key={folded ? 'folded' : 'open'} onScan={scans.read} folded={folded} />
      </Heading>
      {scanSaid}
      {bag && <InHand patient={view.patient} rows={rows} wristbandScanned={wristbandScanned} />}
      {!bag && wristbandScanned && <p>Wristband scanned: this patient’s hospital number.</p>}
      <LargerBag rows={rows} />
      {bag && wanted && override && (
        <UsedAllTheSame why={allStopWords(rows, bag, wanted, policy.formulary)} reason={override.reason} />
      )}
      {despiteNote}
      {condition}
      {first}
      <By>By eye and hand</By>
      <EyeList checks={checks} notSo={draft.notSo} onChange={(notSo) => change({ notSo })} />
      {unread && <p role="alert">{unread.say}</p>}
      {bag && (draft.typing || unread) && (
        <BagDetails draft={draft} wrong={expiry === 'wrong'} onChange={(part) => setDraft(typedOver(draft, part))} />
      )}
      <Acts afterList>
        <Button
          tone="main"
          onPress={() => void keep()}
          disabledBecause={
            sending
              ? 'being sent'
              : !mayDo('recordExchange') && override === null && despite === null
                ? 'the nurse prepares: not in your role'
                : question
                  ? 'a strong bag: call first'
                  : against
                    ? `not so: ${against.statement.toLowerCase()}`
                    : draft.wristband?.whose === 'other'
                      ? 'this wristband is another patient’s'
                      : expiry === 'wrong'
                        ? 'the expiry is no date'
                        : unread && override === null
                          ? 'the lot is not read'
                          : typedLotProblem(draft.lot)
                            ? 'the lot cannot be one'
                            : null
          }
        >
          {!bag
            ? 'Right patient: go to connect'
            : override
              ? 'The rest is right: go to connect with this bag'
              : 'All six are right: go to connect'}
        </Button>
        {bag && !draft.typing && draft.label === undefined && (
          <Button onPress={() => change({ typing: true })}>Type expiry, lot</Button>
        )}
        {bag && <Button onPress={otherBag}>Other bag</Button>}
      </Acts>
    </>
  );
};
