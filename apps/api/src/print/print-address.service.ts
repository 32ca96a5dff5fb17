import { Inject, Injectable } from '@nestjs/common';
import type { Request } from 'express';
import { type Config, webAddress } from '../config/config.js';
import { CONFIG } from '../config/config.token.js';
import { isLoopback } from '../config/reach.js';
import { HomeNetworkService } from '../home-network/home-network.service.js';
import { fieldError } from '../errors/request-error.js';

export interface PrintAddress {
  /** Scheme, host and port. */
  readonly address: string;
  readonly basis: 'given' | 'setting' | 'home' | 'request';
  /** False for an address that means "this machine" on whatever machine reads it. */
  readonly reachable: boolean;
}

/** The address that goes into codes. */
@Injectable()
export class PrintAddressService {
  constructor(
    @Inject(CONFIG) private readonly config: Config,
    private readonly homeNetwork: HomeNetworkService,
  ) {}

  /** One given with the request, else PUBLIC_ADDRESS, else where phones at home get to, else where the request came to. */
  of(req: Request, given?: string): PrintAddress {
    if (given !== undefined && given.trim() !== '') {
      const address = webAddress(given.trim());
      if (address !== null) return this.told(address, 'given');
      throw fieldError({
        field: 'address',
        message: `"${given}" is not an address: give where phones reach this install, such as http://192.168.1.20:4700.`,
      });
    }
    if (this.config.publicAddress !== undefined) {
      return this.told(this.config.publicAddress, 'setting');
    }
    const home = this.homeNetwork.addressForPhones();
    if (home !== null) return this.told(home, 'home');
    return this.told(`${req.protocol}://${req.headers.host ?? 'localhost'}`, 'request');
  }

  private told(address: string, basis: PrintAddress['basis']): PrintAddress {
    const host = new URL(address).hostname.replace(/^\[|\]$/g, '');
    return { address, basis, reachable: !isLoopback(host) };
  }
}
