import { Context, Query, Resolver } from '@nestjs/graphql';
import type { RequestContext } from '../graphql/request-context.js';
import { PrintAddressService } from './print-address.service.js';
import { PrintAddressModel } from './print.model.js';

@Resolver(() => PrintAddressModel)
export class PrintResolver {
  constructor(private readonly addresses: PrintAddressService) {}

  @Query(() => PrintAddressModel, {
    description: 'The address that codes would carry, printed from here without another.',
  })
  printAddress(@Context() context: RequestContext): PrintAddressModel {
    return this.addresses.of(context.req);
  }
}
