import { writeFileSync } from 'node:fs';
import { apiText, ENTRIES } from './apiText.mjs';

writeFileSync('docs/api.txt', apiText(ENTRIES));
