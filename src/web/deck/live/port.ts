/**
 * Instruments straight to the browser, by a serial cable or Bluetooth, where it has them: a port is bytes that come, and
 * an end. What a browser calls such things stays in here.
 */

/** One way to an instrument. */
export interface Port {
  readonly via: "serial" | "bluetooth";
  readonly name: string;
  /** Bytes until the signal or until it is lost. @throws what the browser says when it cannot be opened */
  bytes(signal: AbortSignal): AsyncIterable<Uint8Array>;
}

interface BrowserSerialPort {
  readonly readable: ReadableStream<Uint8Array> | null;
  open(options: { baudRate: number }): Promise<void>;
  close(): Promise<void>;
  getInfo?(): { usbVendorId?: number; usbProductId?: number };
}

interface BrowserCharacteristic extends EventTarget {
  readonly value?: DataView;
  readonly properties: { readonly notify: boolean };
  startNotifications(): Promise<unknown>;
}

interface BrowserBluetoothDevice {
  readonly name?: string;
  readonly gatt: {
    connect(): Promise<{
      getPrimaryServices(): Promise<readonly { getCharacteristics(): Promise<readonly BrowserCharacteristic[]> }[]>;
    }>;
    disconnect(): void;
  };
  addEventListener(type: "gattserverdisconnected", hear: () => void): void;
  removeEventListener(type: "gattserverdisconnected", hear: () => void): void;
}

interface Ports {
  readonly serial?: { requestPort(): Promise<BrowserSerialPort>; getPorts(): Promise<readonly BrowserSerialPort[]> };
  readonly bluetooth?: {
    requestDevice(options: {
      acceptAllDevices: true;
      optionalServices: readonly string[];
    }): Promise<BrowserBluetoothDevice>;
  };
}

const ports = (): Ports => navigator as unknown as Ports;

/** The usual service of modules that carry a serial line over Bluetooth LE, and its like (recalled). */
const SERIAL_SERVICES = ["6e400001-b5a3-f393-e0a9-e50e24dcca9e", "0000ffe0-0000-1000-8000-00805f9b34fb"] as const;

/** What this browser can reach. */
export const reachable = (): { readonly serial: boolean; readonly bluetooth: boolean } => ({
  serial: ports().serial !== undefined,
  bluetooth: ports().bluetooth !== undefined,
});

/** Asks the user for a serial port; the browser shows its own list. */
export async function askSerial(baudRate: number): Promise<Port> {
  return serialPort(await ports().serial!.requestPort(), baudRate);
}

/** A serial port this browser was let use before, without asking again; null where there is none. */
export async function knownSerial(baudRate: number): Promise<Port | null> {
  const [port] = (await ports().serial?.getPorts()) ?? [];
  return port === undefined ? null : serialPort(port, baudRate);
}

function serialPort(port: BrowserSerialPort, baudRate: number): Port {
  const { usbVendorId, usbProductId } = port.getInfo?.() ?? {};
  const hex = (value: number) => value.toString(16).padStart(4, "0");
  const known = usbVendorId === undefined ? "" : ` ${hex(usbVendorId)}:${hex(usbProductId ?? 0)}`;
  return {
    via: "serial",
    name: `serial${known}, ${baudRate} baud`,
    async *bytes(signal) {
      await port.open({ baudRate });
      try {
        const reader = port.readable!.getReader();
        const stop = () => void reader.cancel().catch(() => undefined);
        signal.addEventListener("abort", stop, { once: true });
        try {
          for (;;) {
            const { value, done } = await reader.read();
            if (done) return;
            yield value;
          }
        } finally {
          signal.removeEventListener("abort", stop);
          reader.releaseLock();
        }
      } finally {
        await port.close().catch(() => undefined);
      }
    },
  };
}

/** Asks the user for a Bluetooth device that carries a serial line; the browser shows its own list. */
export async function askBluetooth(): Promise<Port> {
  const device = await ports().bluetooth!.requestDevice({ acceptAllDevices: true, optionalServices: SERIAL_SERVICES });
  return {
    via: "bluetooth",
    name: `Bluetooth ${device.name ?? "device"}`,
    async *bytes(signal) {
      const came: Uint8Array[] = [];
      let over = signal.aborted;
      let wake = () => {};
      const end = () => {
        over = true;
        wake();
      };
      const hear = ({ target }: Event) => {
        const { value } = target as unknown as BrowserCharacteristic;
        // The view may be a part of a larger buffer, which the browser may fill again.
        if (value !== undefined) came.push(new Uint8Array(value.buffer, value.byteOffset, value.byteLength).slice());
        wake();
      };
      device.addEventListener("gattserverdisconnected", end);
      signal.addEventListener("abort", end);
      let telling: BrowserCharacteristic | undefined;
      try {
        telling = await tellingOf(device);
        telling.addEventListener("characteristicvaluechanged", hear);
        await telling.startNotifications();
        while (!over) {
          yield* came.splice(0);
          await new Promise<void>((done) => {
            wake = done;
            if (came.length > 0 || over) done();
          });
        }
        // What came together with the loss is read too.
        yield* came.splice(0);
      } finally {
        telling?.removeEventListener("characteristicvaluechanged", hear);
        device.removeEventListener("gattserverdisconnected", end);
        signal.removeEventListener("abort", end);
        device.gatt.disconnect();
      }
    },
  };
}

/** What a device tells by itself; found anew on each connection, for the last one's is dead. */
async function tellingOf({ gatt }: BrowserBluetoothDevice): Promise<BrowserCharacteristic> {
  const services = await (await gatt.connect()).getPrimaryServices();
  // A service without characteristics is refused by the browser; another may have them.
  const all = await Promise.all(services.map((one) => one.getCharacteristics().catch(() => [])));
  const telling = all.flat().find(({ properties }) => properties.notify);
  if (telling === undefined) throw new Error("it sends nothing by itself");
  return telling;
}
