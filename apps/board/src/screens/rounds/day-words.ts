import { formatIsoDate } from '@slackwater/domain/words/numbers';

/** A ward day without its year, as an axis has room for: `25-Nov`. */
export const day = (date: string): string => formatIsoDate(date).slice(0, 6);
