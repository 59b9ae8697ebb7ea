import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

/** A SHA-256 that is fed piece by piece: browsers have one only for whole files, and only on secure pages. */
export function digesting() {
  const hash = sha256.create();
  return {
    add: (bytes: Uint8Array) => {
      hash.update(bytes);
    },
    hex: () => bytesToHex(hash.clone().digest()),
  };
}
