import { fieldError } from '../errors/request-error.js';

const DAY = 86_400_000;

/** Refuses a day that is yet to come; tomorrow passes, because somewhere it is tomorrow already. */
export const expectHappened = (field: string, day: string): void => {
  const latest = new Date(Date.now() + DAY).toISOString().slice(0, 10);
  if (day <= latest) return;
  throw fieldError({
    field,
    message: `${day} is yet to come by the clock of the server: give the day it happened, and look at the clock of the device.`,
  });
};
