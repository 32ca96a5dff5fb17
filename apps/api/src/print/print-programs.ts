import { requestProgram } from '../jobs/request-programs.js';
import { cards } from './cards.js';
import { jarLabels } from './jar-label.js';

export const cardsProgram = requestProgram('cards', cards);
export const jarLabelsProgram = requestProgram('jarLabels', jarLabels);
