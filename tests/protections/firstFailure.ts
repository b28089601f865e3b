/** That a law fails is enough here: the smallest case that breaks it is not looked for. */
import fc from 'fast-check';

fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true });
