/** A part of a plan found right once is right for good, as long as it is the very same object. */
import type * as v from 'valibot';

/** The schema of a readonly part, which looks at each object it finds right only once. */
export function onceRight<T>(schema: v.GenericSchema<unknown, T>): v.GenericSchema<unknown, T> {
  const right = new WeakMap<object, T>();
  return {
    ...schema,
    '~run'(dataset, config) {
      const part = dataset.value;
      if (typeof part !== 'object' || part === null) return schema['~run'](dataset, config);
      const known = right.get(part);
      if (known !== undefined) return { typed: true, value: known };
      const read = schema['~run'](dataset, config);
      if (read.typed && read.issues === undefined) right.set(part, read.value);
      return read;
    },
  };
}
