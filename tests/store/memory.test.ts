import { createMemoryStore } from '../../src/store/memory.ts';
import { describeStore } from './contract.ts';

describeStore('memory', async () => createMemoryStore());
