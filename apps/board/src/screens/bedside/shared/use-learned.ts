import type { DrainEstimator } from '@slackwater/domain';
import { useQuery } from '@tanstack/react-query';
import { drainLearningQuery } from './queries.ts';

/** What the patient's earlier dwells taught; null while it could not be read, and then the ward's table serves. */
export const useLearned = (patientId: string): DrainEstimator | null =>
  useQuery(drainLearningQuery(patientId)).data?.estimator ?? null;
