import { dayIn, HOUR } from '@linewright/care';
import { askingZone } from './asking-zone.js';

/**
 * The one clock of the API. Everything that needs the time or the day is given it, so that a test can say what day it is.
 * Time between two moments (how long to wait, how fast something was) is measured by `performance.now()` instead.
 */
export class Clock {
  private ownerAskedFrom: string | undefined;

  /**
   * @param read milliseconds since 1970-01-01T00:00Z
   * @param placeZone IANA name of the zone that holds where a request names none
   */
  constructor(
    private readonly read: () => number,
    private readonly placeZone: string,
  ) {}

  now(): Date {
    return new Date(this.read());
  }

  /** The time zone of whoever asks; outside of a request, or where it names none, that of the server. */
  zone(): string {
    return askingZone() ?? this.placeZone;
  }

  /** Notes where the owner asks from, for {@link ownersZone}; in memory alone. */
  ownerAsks(): void {
    this.ownerAskedFrom = askingZone() ?? this.ownerAskedFrom;
  }

  /** For what the program does by itself: the time zone that the owner last asked from, before that the server's. */
  ownersZone(): string {
    return this.ownerAskedFrom ?? this.placeZone;
  }

  /** The calendar day `YYYY-MM-DD` where whoever asks is. */
  today(zone = this.zone()): string {
    return dayIn(this.read(), zone);
  }

  /** The last day on which something can have happened already: clocks of devices may be an hour ahead, no more. */
  latestDay(zone = this.zone()): string {
    return dayIn(this.read() + HOUR, zone);
  }

  /** The same where the day begins first: for what comes from elsewhere, of which nobody knows the zone. */
  latestDayAnywhere(): string {
    return this.latestDay('Pacific/Kiritimati');
  }

  /** The latest time at which something can have happened already, by the same hour. */
  latestTime(): Date {
    return new Date(this.read() + HOUR);
  }
}
