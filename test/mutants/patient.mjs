/** Tests say how long they may take at most; at low priority, and with code that was changed, that is too little. */
import { vi } from 'vitest';

const { setConfig } = vi;
vi.setConfig = ({ testTimeout: _, hookTimeout: _hook, ...rest }) => setConfig(rest);
