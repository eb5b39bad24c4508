import { version } from '../../package.json';

export const VERSION: string = version;
/** Of the documents of `--json`: counts on where a field is taken away or gets another meaning. */
export const OUTPUT = 1;
