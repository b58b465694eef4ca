import { uuid, wardId } from '@slackwater/contract';
import { z } from 'zod';

export const patientParams = z.strictObject({ id: uuid });
export const wardParams = z.strictObject({ ward: wardId });
