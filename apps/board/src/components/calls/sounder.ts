import { lead } from './lead.ts';
import { callNode } from './tone.ts';

/** `waitsForPress`: the browser lets this page sound only once somebody pressed something in it. */
export type SoundState = 'waitsForPress' | 'elsewhere' | 'quiet' | 'sounding';

export type Sounder = {
  state(): SoundState;
  subscribe(listener: () => void): () => void;
  /** Sounds round after round until told otherwise. */
  want(sounding: boolean): void;
  end(): void;
};

/**
 * Sounds in one tab of this browser: among those in which it may, the first. It is played by the browser's audio, not by
 * timers, so it goes on while the tab is hidden.
 */
export function createSounder(wardId: string): Sounder {
  const context = new AudioContext();
  const listeners = new Set<() => void>();
  let endLead: (() => void) | null = null;
  let leads = false;
  let wanted = false;
  let node: AudioBufferSourceNode | null = null;

  const state = (): SoundState => {
    if (context.state !== 'running') return 'waitsForPress';
    if (!leads) return 'elsewhere';
    return node === null ? 'quiet' : 'sounding';
  };

  const update = () => {
    const may = context.state === 'running';
    if (may && endLead === null) {
      endLead = lead(`slackwater sound ${wardId}`, () => {
        leads = true;
        update();
      });
    }
    if (!may && endLead !== null) {
      endLead();
      endLead = null;
      leads = false;
    }
    const sounds = may && leads && wanted;
    if (sounds && node === null) {
      node = callNode(context, true);
      node.start();
    } else if (!sounds && node !== null) {
      node.stop();
      node = null;
    }
    for (const listener of listeners) listener();
  };

  /** Any press or key in the page is the leave that browsers ask for. */
  const pressed = () => void context.resume().catch(() => {});
  context.addEventListener('statechange', update);
  document.addEventListener('pointerdown', pressed, true);
  document.addEventListener('keydown', pressed, true);
  update();

  return {
    state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    want(sounding) {
      if (wanted === sounding) return;
      wanted = sounding;
      update();
    },
    end() {
      wanted = false;
      update();
      document.removeEventListener('pointerdown', pressed, true);
      document.removeEventListener('keydown', pressed, true);
      context.removeEventListener('statechange', update);
      endLead?.();
      void context.close();
    },
  };
}
