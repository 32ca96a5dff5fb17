import { Field, ID } from '@nestjs/graphql';

/** The id of a new record. */
export const SenderId = (twice = 'one is made when absent'): PropertyDecorator =>
  Field(() => ID, { nullable: true, description: `UUID made by the sender; ${twice}.` });

/** The same for what a device may send again after a lost answer. */
export const IdSentOnce = (): PropertyDecorator => SenderId('sending it twice records it once');

/** The entry of a device by which a record is made or changed. */
export const EntryId = (): PropertyDecorator =>
  Field(() => ID, {
    nullable: true,
    description: "UUID of the entry on the sender's device; sending it twice applies it once.",
  });

/** A word of the owner that a spawn is not the recorded one. */
export const ConfirmedSpawn = (): PropertyDecorator =>
  Field(() => Boolean, {
    nullable: true,
    defaultValue: false,
    description:
      'Saves it although a spawn of the same pair and day is recorded; without it the answer is SPAWN_RECORDED, with the tag of that one.',
  });
