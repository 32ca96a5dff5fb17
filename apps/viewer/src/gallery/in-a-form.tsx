import { useEffect, type ReactNode } from 'react';
import { FormProvider, useForm } from 'react-hook-form';

interface InAFormProps {
  values?: Readonly<Record<string, string | boolean>>;
  /** Messages by field. */
  errors?: Readonly<Record<string, string>>;
  children: ReactNode;
}

/** Fields need a form around them; this one holds what it is given. */
export function InAForm({ values = {}, errors = {}, children }: InAFormProps) {
  const form = useForm<Record<string, string | boolean>>({ defaultValues: { ...values } });
  const { setError } = form;
  useEffect(() => {
    for (const [name, message] of Object.entries(errors)) setError(name, { message });
  }, [errors, setError]);
  return (
    <FormProvider {...form}>
      <div className="lw-form">{children}</div>
    </FormProvider>
  );
}
