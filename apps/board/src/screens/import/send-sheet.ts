import type { ImportAnswer } from '@slackwater/contract';
import { askForPassword } from '../../api/lock.ts';
import { ApiProblem, isLocked, NoAnswer } from '../../api/problems.ts';

const send = async (wardId: string, sheet: Blob): Promise<ImportAnswer> => {
  let response: Response;
  try {
    response = await fetch(`/api/wards/${encodeURIComponent(wardId)}/import`, {
      method: 'POST',
      credentials: 'same-origin',
      headers: { accept: 'application/json, application/problem+json', 'content-type': 'text/csv' },
      body: sheet,
    });
  } catch (cause) {
    throw new NoAnswer({ cause });
  }
  const answer = /\bjson\b/.test(response.headers.get('content-type') ?? '') ? await response.json() : {};
  if (!response.ok) throw new ApiProblem(response.status, answer);
  return answer as ImportAnswer;
};

/**
 * Sends a file as it is. After an idle lock the password is asked for and the same file sent again; without an answer
 * sending it once more is safe, since the same sheet twice changes nothing.
 */
export const sendSheet = async (wardId: string, sheet: Blob): Promise<ImportAnswer> => {
  try {
    return await send(wardId, sheet);
  } catch (problem) {
    if (!isLocked(problem)) throw problem;
    await askForPassword();
    return send(wardId, sheet);
  }
};
