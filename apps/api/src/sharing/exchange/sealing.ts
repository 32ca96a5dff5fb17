import { Decrypter, Encrypter } from 'age-encryption';

/** Bytes that only the install with that reading key can open (age, age-encryption.org/v1: X25519, ChaCha20-Poly1305). Memory: twice the bytes. */
export const sealFor = async (bytes: Uint8Array, readingKey: string): Promise<Uint8Array> => {
  const encrypter = new Encrypter();
  encrypter.addRecipient(readingKey);
  return encrypter.encrypt(bytes);
};

/** Opens what was sealed for this install; `null` for what was not, is cut off or altered. Memory: twice the bytes. */
export const openSealed = async (
  bytes: Uint8Array,
  readingSecret: string,
): Promise<Uint8Array | null> => {
  const decrypter = new Decrypter();
  decrypter.addIdentity(readingSecret);
  try {
    return await decrypter.decrypt(bytes);
  } catch {
    return null;
  }
};
