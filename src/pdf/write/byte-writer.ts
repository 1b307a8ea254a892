const DIGITS = "0123456789abcdef";

/** Bytes written one after the other into a buffer that grows. */
export class ByteWriter {
  private buffer = new Uint8Array(4096);
  length = 0;

  /** Appends characters, one byte each (Latin-1). */
  text(text: string): void {
    this.room(text.length);
    const { buffer, length } = this;
    for (let i = 0; i < text.length; i++) buffer[length + i] = text.charCodeAt(i);
    this.length += text.length;
  }

  bytes(bytes: Uint8Array): void {
    this.room(bytes.length);
    this.buffer.set(bytes, this.length);
    this.length += bytes.length;
  }

  /** Appends one byte. */
  byte(byte: number): void {
    this.room(1);
    this.buffer[this.length++] = byte;
  }

  /** Appends bytes as hexadecimal digits, two each. */
  hex(bytes: Uint8Array): void {
    this.room(2 * bytes.length);
    const { buffer, length } = this;
    for (let i = 0; i < bytes.length; i++) {
      const byte = bytes[i] as number;
      buffer[length + 2 * i] = DIGITS.charCodeAt(byte >> 4);
      buffer[length + 2 * i + 1] = DIGITS.charCodeAt(byte & 15);
    }
    this.length += 2 * bytes.length;
  }

  /** Everything written so far. */
  finish(): Uint8Array<ArrayBuffer> {
    return this.buffer.slice(0, this.length);
  }

  private room(more: number): void {
    if (this.length + more <= this.buffer.length) return;
    const grown = new Uint8Array(Math.max(this.length + more, 2 * this.buffer.length));
    grown.set(this.buffer.subarray(0, this.length));
    this.buffer = grown;
  }
}
