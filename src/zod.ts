/**
 * The schema library, told once and before anything else that no code is to be made: a content security
 * policy forbids it.
 */
import { z } from 'zod';

z.config({ jitless: true });

export { z };
