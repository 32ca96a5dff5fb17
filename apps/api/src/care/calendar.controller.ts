import { Controller, Get, Param, Req, Res } from '@nestjs/common';
import type { Request, Response } from 'express';
import { actAs } from '../access/acting.js';
import { type AttemptLimit, RefusedAttempts } from '../accounts/refused-attempts.service.js';
import { WithoutSession } from '../accounts/session.guard.js';
import { Clock } from '../clock/clock.js';
import { CalendarAddressService } from './calendar-address.service.js';
import { calendarFeed } from './calendar-feed.js';
import { CarePlansService } from './care-plans.service.js';

/** A secret of 256 bits is not guessed; this keeps whoever tries from keeping the server busy. */
const wrongAddresses: AttemptLimit = { what: 'calendar', allowed: 30, minutes: 10 };

/** Calendar programs cannot sign in: the secret in the address is what opens it. A wrong one is no page at all. */
@Controller('calendar')
export class CalendarController {
  constructor(
    private readonly addresses: CalendarAddressService,
    private readonly plans: CarePlansService,
    private readonly refused: RefusedAttempts,
    private readonly clock: Clock,
  ) {}

  @WithoutSession()
  @Get(':file')
  async calendar(
    @Param('file') file: string,
    @Req() req: Request,
    @Res() res: Response,
  ): Promise<void> {
    res.setHeader('Cache-Control', 'no-store');
    res.setHeader('X-Robots-Tag', 'noindex');
    res.setHeader('Referrer-Policy', 'no-referrer');
    const caller = req.ip ?? 'unknown';
    if (await this.refused.tooMany(wrongAddresses, caller)) {
      this.holdBack(res);
      return;
    }
    const secret = /^(.*)\.ics$/.exec(file)?.[1] ?? '';
    const person = await this.addresses.personOf(secret);
    if (person === null) {
      if ((await this.refused.note(wrongAddresses, caller)) === null) this.holdBack(res);
      else res.status(404).type('text').send('There is no calendar at this address.');
      return;
    }
    const now = this.clock.now();
    const plans = await actAs({ kind: 'account', ...person }, () =>
      this.plans.live(person, now, req),
    );
    const text = calendarFeed(plans, now);
    res.status(200).setHeader('Content-Type', 'text/calendar; charset=utf-8');
    res.setHeader('Content-Disposition', 'inline; filename="linewright.ics"');
    res.send(text);
  }

  private holdBack(res: Response): void {
    const { minutes } = wrongAddresses;
    res
      .status(429)
      .setHeader('Retry-After', String(minutes * 60))
      .type('text')
      .send(`Too many wrong addresses from here: try again in ${minutes} minutes.`);
  }
}
