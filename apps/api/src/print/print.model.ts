import { Field, ObjectType, registerEnumType } from '@nestjs/graphql';

export const PrintAddressBasis = {
  GIVEN: 'given',
  SETTING: 'setting',
  HOME: 'home',
  REQUEST: 'request',
} as const;
export type PrintAddressBasis = (typeof PrintAddressBasis)[keyof typeof PrintAddressBasis];
registerEnumType(PrintAddressBasis, {
  name: 'PrintAddressBasis',
  description: 'Where the address in printed codes comes from.',
  valuesMap: {
    GIVEN: { description: 'Given with the request to print.' },
    SETTING: { description: 'Set on the server as PUBLIC_ADDRESS.' },
    HOME: { description: 'Where phones at home reach this install, as the page “Phone” shows.' },
    REQUEST: { description: 'The address this request came to.' },
  },
});

@ObjectType('PrintAddress', {
  description: 'The address that goes into the codes on labels and cards.',
})
export class PrintAddressModel {
  @Field(() => String, { description: 'Scheme, host and port.' })
  address: string;

  @Field(() => PrintAddressBasis, { description: 'Where it comes from.' })
  basis: PrintAddressBasis;

  @Field(() => Boolean, {
    description:
      'False when it means “this machine” on whatever machine reads it: no phone gets there.',
  })
  reachable: boolean;
}
