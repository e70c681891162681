/** An elliptic public key (RFC 7517, 7518), as it stands in what it signed. */
export type PublicKey = {
  readonly kty: "EC";
  readonly crv: "P-256";
  readonly x: string;
  readonly y: string;
};

/** The key of this device: the browser signs with it and gives it to nobody. */
export interface DeviceKey {
  readonly id: "device";
  readonly privateKey: CryptoKey;
  readonly publicKey: PublicKey;
  /** Thumbprint of the public key (RFC 7638), SHA-256 in base64url. */
  readonly thumbprint: string;
}
