import type { RequestListener } from 'node:http';
import { Inject, Injectable, Logger, type OnModuleDestroy } from '@nestjs/common';
import { DataSource, type Repository } from 'typeorm';
import { DAY } from '@linewright/care';
import { asSystem } from '../access/acting.js';
import { AccountsService } from '../accounts/accounts.service.js';
import { Clock } from '../clock/clock.js';
import type { Config } from '../config/config.js';
import { CONFIG } from '../config/config.token.js';
import { InstallStateRow } from '../database/install-state.entity.js';
import { RequestError } from '../errors/request-error.js';
import { homeAddresses, HOME_NAME, homeNames } from './home-addresses.js';
import { type HomeDoor, openHomeDoor } from './home-door.js';
import { type AnnouncedName, announceHomeName } from './home-name.js';
import {
  fingerprintOf,
  houseAuthority,
  type ServerCertificate,
  serverCertificate,
} from './house-certificate.js';

/** How soon another process, a changed address or a password that is gone is noticed. */
const LOOK_MS = 2_000;
/** Renewed so long before its end. */
const RENEW_BEFORE = 30 * DAY;

interface Open {
  readonly door: HomeDoor;
  readonly name: AnnouncedName;
  readonly fingerprint: string;
  readonly authorityUntil: Date;
  certificate: ServerCertificate;
  addresses: readonly string[];
}

/** How the home network stands, in this process. */
export interface HomeNetwork {
  /** What was chosen, for all processes. */
  readonly chosen: boolean;
  /** Why it cannot be opened; `null` where it can. */
  readonly barred: string | null;
  /** Why this process does not listen although it should. */
  readonly problem: string | null;
  readonly open: {
    readonly port: number;
    /** Scheme, host and port; the name first. */
    readonly addresses: readonly { readonly name: boolean; readonly address: string }[];
    readonly fingerprint: string;
    readonly certificateUntil: Date;
    readonly authorityUntil: Date;
    readonly nameTaken: boolean;
  } | null;
}

const PASSWORD_FIRST =
  'Set a password first, on the page “People”: without one, whoever is in the network could read and change everything.';
const PROXY =
  'TRUST_PROXY is set: a proxy brings phones here already, and this switch would open a second way past it.';

/** Opens the network of the house to this install and closes it, as the one switch in the database says. */
@Injectable()
export class HomeNetworkService implements OnModuleDestroy {
  private readonly log = new Logger('home network');
  private answer: RequestListener | null = null;
  private timer: NodeJS.Timeout | null = null;
  private open: Open | null = null;
  private problem: string | null = null;
  private looking: Promise<void> = Promise.resolve();

  constructor(
    private readonly dataSource: DataSource,
    private readonly accounts: AccountsService,
    private readonly clock: Clock,
    @Inject(CONFIG) private readonly config: Config,
  ) {}

  /** From now on phones are answered by this while the switch is on. */
  async begin(answer: RequestListener): Promise<void> {
    this.answer = answer;
    await this.look();
    this.timer = setInterval(() => void this.look(), LOOK_MS).unref();
  }

  async onModuleDestroy(): Promise<void> {
    if (this.timer !== null) clearInterval(this.timer);
    this.answer = null;
    await this.look();
  }

  /** Names under which this machine is asked for while the network is open; none otherwise. */
  names(): readonly string[] {
    return this.open === null ? [] : homeNames();
  }

  /** Where phones get to, by name, while the network is open. */
  addressForPhones(): string | null {
    const [first] = this.open === null ? [] : this.addressesOf(this.open);
    return first?.address ?? null;
  }

  async state(): Promise<HomeNetwork> {
    const [chosen, barred] = await Promise.all([this.chosen(), this.barred()]);
    const { open, problem } = this;
    return {
      chosen,
      barred,
      problem,
      open: open && {
        port: open.door.port,
        addresses: this.addressesOf(open),
        fingerprint: open.fingerprint,
        certificateUntil: open.certificate.until,
        authorityUntil: open.authorityUntil,
        nameTaken: open.name.isTaken(),
      },
    };
  }

  /** @throws RequestError `PASSWORD_FIRST`, `NOT_ALLOWED` */
  async choose(open: boolean): Promise<HomeNetwork> {
    const barred = open ? await this.barred() : null;
    if (barred !== null)
      throw new RequestError(barred === PROXY ? 'NOT_ALLOWED' : 'PASSWORD_FIRST', barred);
    await this.entering((rows) => rows.update({ id: 1 }, { homeNetwork: open }));
    await this.look();
    return this.state();
  }

  private addressesOf({ door, addresses, name }: Open): { name: boolean; address: string }[] {
    const numbers = addresses.map((host) => ({ name: false, host }));
    const all = name.isTaken() ? numbers : [{ name: true, host: HOME_NAME }, ...numbers];
    return all.map((one) => ({ name: one.name, address: `https://${one.host}:${door.port}` }));
  }

  /** One after another: two that open at once would listen twice. */
  private look(): Promise<void> {
    this.looking = this.looking
      .then(() => this.lookOnce())
      .catch((error: unknown) => {
        this.log.warn(`It could not be looked after: ${String(error)}`);
      });
    return this.looking;
  }

  private async lookOnce(): Promise<void> {
    const wanted = this.answer !== null && (await this.chosen()) && (await this.barred()) === null;
    if (!wanted) {
      this.problem = null;
      return this.shut();
    }
    if (this.open !== null) return this.keepUp(this.open);
    try {
      this.open = await this.opened(this.answer!);
      this.problem = null;
    } catch (error) {
      this.tellProblem(error);
    }
  }

  private async opened(answer: RequestListener): Promise<Open> {
    const now = this.clock.now();
    const authority = await houseAuthority(this.config.dataDir, now);
    const fingerprint = await fingerprintOf(authority);
    const addresses = homeAddresses();
    const certificate = await serverCertificate(authority, { names: homeNames(), addresses }, now);
    const door = await openHomeDoor({
      ...{ port: this.config.homePort, certificate, fingerprint, answer },
      authority: new Uint8Array(authority.certificate.rawData),
    });
    const name = announceHomeName({
      addresses: homeAddresses,
      onFault: (error) => this.log.warn(`The name is not announced: ${String(error)}`),
    });
    return {
      ...{ door, name, fingerprint, certificate, addresses },
      authorityUntil: authority.certificate.notAfter,
    };
  }

  /** A certificate names the addresses that the machine had when it was made, and ends. */
  private async keepUp(open: Open): Promise<void> {
    const addresses = homeAddresses();
    const now = this.clock.now();
    const same = addresses.join() === open.addresses.join();
    if (same && open.certificate.until.getTime() - now.getTime() > RENEW_BEFORE) return;
    const authority = await houseAuthority(this.config.dataDir, now);
    // A new one has another fingerprint: the door is opened again with it.
    if ((await fingerprintOf(authority)) !== open.fingerprint) return this.shut();
    open.certificate = await serverCertificate(authority, { names: homeNames(), addresses }, now);
    open.addresses = addresses;
    open.door.renew(open.certificate);
  }

  private async shut(): Promise<void> {
    const { open } = this;
    this.open = null;
    if (open !== null) await Promise.all([open.door.close(), open.name.stop()]);
  }

  private tellProblem(error: unknown): void {
    const { code } = error as NodeJS.ErrnoException;
    const told =
      code === 'EADDRINUSE'
        ? `Port ${this.config.homePort} is taken by another program: end that one, or set HOME_PORT to another and start again.`
        : `Linewright cannot listen at home (${error instanceof Error ? error.message : String(error)}).`;
    if (told !== this.problem) this.log.warn(told);
    this.problem = told;
  }

  private async chosen(): Promise<boolean> {
    const state = await this.entering((rows) => rows.findOneByOrFail({ id: 1 }));
    return state.homeNetwork;
  }

  private async barred(): Promise<string | null> {
    if (this.config.trustProxy) return PROXY;
    const owner = await this.accounts.owner();
    return owner !== null && (await this.accounts.hasPassword(owner.id)) ? null : PASSWORD_FIRST;
  }

  private entering<Answer>(
    work: (rows: Repository<InstallStateRow>) => Promise<Answer>,
  ): Promise<Answer> {
    return asSystem('entrance', () => work(this.dataSource.getRepository(InstallStateRow)));
  }
}
