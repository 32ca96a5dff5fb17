import { Field, Int, ObjectType } from '@nestjs/graphql';
import { QrCodeModel, toQrCode } from '../graphql/qr-code.js';
import type { HomeNetwork } from './home-network.service.js';

@ObjectType('HomeAddress', {
  description: 'An address at which phones at home reach this install.',
})
export class HomeAddressModel {
  @Field(() => String, { description: 'Scheme, host and port.' })
  address: string;

  @Field(() => Boolean, { description: 'True for a name, false for numbers.' })
  name: boolean;

  @Field(() => String, {
    description:
      'The same over plain HTTP: a page that teaches a phone the certificate, and shows no records.',
  })
  setUpAddress: string;

  @Field(() => QrCodeModel, { description: '`setUpAddress`, to be read by the camera of a phone.' })
  setUpQr: QrCodeModel;

  @Field(() => QrCodeModel, { description: '`address`, to be read by the camera of a phone.' })
  qr: QrCodeModel;
}

@ObjectType('OpenHomeNetwork', { description: 'How phones at home reach this process.' })
export class OpenHomeNetworkModel {
  @Field(() => Int, { description: 'Port listened on.' })
  port: number;

  @Field(() => [HomeAddressModel], { description: 'Addresses, the name first.' })
  addresses: HomeAddressModel[];

  @Field(() => String, {
    description: 'SHA-256 of the certificate that phones are taught, in pairs of letters.',
  })
  fingerprint: string;

  @Field(() => Date, {
    description: 'Until when the server’s own certificate holds; renewed before.',
  })
  certificateUntil: Date;

  @Field(() => Date, {
    description:
      'Until when the certificate that phones are taught holds; then they are taught again.',
  })
  authorityUntil: Date;

  @Field(() => Boolean, {
    description:
      'True where another machine goes by the same name: the addresses are numbers alone then.',
  })
  nameTaken: boolean;
}

@ObjectType('HomeNetwork', { description: 'Whether phones at home may reach this install.' })
export class HomeNetworkModel {
  @Field(() => Boolean, { description: 'What was chosen, for every process on these records.' })
  chosen: boolean;

  @Field(() => String, {
    nullable: true,
    description: 'Why it cannot be opened, and what to do; null where it can.',
  })
  barred: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'Why this process does not listen although it should, and what to do.',
  })
  problem: string | null;

  @Field(() => OpenHomeNetworkModel, {
    nullable: true,
    description: 'Where phones get to; null while closed.',
  })
  open: OpenHomeNetworkModel | null;
}

export const toHomeNetwork = ({ open, ...state }: HomeNetwork): HomeNetworkModel => ({
  ...state,
  open: open && {
    ...open,
    addresses: open.addresses.map(({ address, name }) => {
      const setUpAddress = address.replace(/^https:/, 'http:');
      return {
        address,
        name,
        setUpAddress,
        setUpQr: toQrCode(setUpAddress),
        qr: toQrCode(address),
      };
    }),
  },
});
