import { lead } from './lead.ts';

/** What a notice says: a bed and a kind, never a name, since it stands where anybody may read it. */
export type Call = { id: string; title: string; body: string };

/** Whether this browser has notices for pages, and what the person answered it. */
export const noticePermission = (): NotificationPermission | 'none' =>
  'Notification' in window ? Notification.permission : 'none';

/** Asks the person, once, when they press for it. */
export const askForNotices = async (): Promise<NotificationPermission | 'none'> =>
  noticePermission() === 'default' ? Notification.requestPermission() : noticePermission();

/** Shows a notice for each call, from one tab of the browser, and takes it back when somebody has the alert. */
export function createNotices(wardId: string) {
  const shown = new Map<string, Notification>();
  let calls: readonly Call[] = [];
  let leads = false;

  const update = () => {
    if (!leads || noticePermission() !== 'granted') return;
    for (const [id, notice] of shown) {
      if (calls.some((call) => call.id === id)) continue;
      notice.close();
      shown.delete(id);
    }
    for (const { id, title, body } of calls) {
      if (shown.has(id)) continue;
      const notice = noticeOf(title, body, id);
      if (notice !== null) shown.set(id, notice);
    }
  };
  const endLead = lead(`slackwater notices ${wardId}`, () => {
    leads = true;
    update();
  });
  return {
    show(next: readonly Call[]) {
      calls = next;
      update();
    },
    end() {
      calls = [];
      update();
      endLead();
    },
  };
}

/** null where a browser has notices but not for pages: some telephones show them only for installed ones. */
function noticeOf(title: string, body: string, tag: string): Notification | null {
  try {
    const notice = new Notification(title, { body, tag });
    notice.addEventListener('click', () => {
      window.focus();
      notice.close();
    });
    return notice;
  } catch {
    return null;
  }
}
