import type { SettingsChange, SettingsHistory, WardView } from '@slackwater/contract';
import { isResponseKey } from '@slackwater/domain/effluent/response-texts';
import { RESPONSES } from '@slackwater/domain/effluent/responses';
import { SETTINGS } from '@slackwater/domain/ward/settings';
import { formatClock, formatDate } from '@slackwater/domain/words/numbers';
import { useInfiniteQuery } from '@tanstack/react-query';
import { api } from '../../api/client.ts';
import { wordsOf } from '../../api/problems.ts';
import { Button } from '../../ui/button.tsx';
import type { SettingKey } from './typed-changes.ts';

/** Every version of the settings after the first: who, when, from what to what. An alert names its version. */
export const History = ({ ward }: { ward: WardView }) => {
  const history = useInfiniteQuery({
    queryKey: ['ward', ward.id, 'settings', ward.policy.version],
    queryFn: ({ pageParam, signal }) =>
      api.get<SettingsHistory>(
        `/api/wards/${encodeURIComponent(ward.id)}/settings?limit=20${pageParam && `&cursor=${pageParam}`}`,
        { signal },
      ),
    initialPageParam: '',
    getNextPageParam: ({ nextCursor }) => nextCursor,
  });
  const versions = history.data?.pages.flatMap((page) => page.versions) ?? [];
  return (
    <section aria-label="Versions">
      <h2>Versions</h2>
      {history.isError && <p role="alert">{wordsOf(history.error)}</p>}
      {history.isSuccess && versions.length === 0 && <p>Nothing was changed yet: version 1 holds the defaults.</p>}
      {versions.map(({ version, at, by, changes }) => (
        <article key={version} aria-label={`Version ${version}`}>
          <h3>
            Version {version}: {by ?? 'the tool'}, {formatDate(at, ward.zone)} {formatClock(at, ward.zone)}
          </h3>
          <ul>
            {changes.map((change) => (
              <li key={change.key}>{changeWords(change)}</li>
            ))}
          </ul>
        </article>
      ))}
      {history.hasNextPage && (
        <Button disabledBecause={history.isFetching ? 'looking' : null} onPress={() => history.fetchNextPage()}>
          Show older ones
        </Button>
      )}
    </section>
  );
};

const changeWords = ({ key, from, to }: SettingsChange): string => {
  if (!isResponseKey(key)) {
    const { meaning, unit } = SETTINGS[key as SettingKey] ?? { meaning: key, unit: '' };
    return `${meaning}: from ${from ?? 'nothing'} to ${to ?? 'nothing'} ${unit}`;
  }
  const [finding, part] = key.split('.') as [keyof typeof RESPONSES, string];
  const words = (text: number | string | null) => (text === null || text === '' ? 'the default' : `“${text}”`);
  return `${RESPONSES[finding].title}, ${part}: from ${words(from)} to ${words(to)}`;
};
