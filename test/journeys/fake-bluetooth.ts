/**
 * A load cell over Bluetooth LE that is none, in a page, shaped as the Web Bluetooth specification has it (Web Bluetooth
 * Community Group, draft report; recalled): a device is asked for with a touch, a service not named is not seen, a service
 * without characteristics refuses to list them, values are views of a buffer that is used again, what a lost connection
 * gave is dead, and a device out of reach refuses to connect.
 */
import type { Page } from "playwright-core";

interface FakeCell {
  tell(packet: string): boolean;
  lose(last: string): void;
  setInReach(inReach: boolean): void;
}

/** Puts it into a page before it is opened. */
export const addBluetooth = (page: Page): Promise<unknown> =>
  page.addInitScript(() => {
    const SERIAL = "6e400001-b5a3-f393-e0a9-e50e24dcca9e";
    const EMPTY = "0000ffe0-0000-1000-8000-00805f9b34fb";
    const BATTERY = "0000180f-0000-1000-8000-00805f9b34fb";
    const buffer = new ArrayBuffer(64);
    let inReach = true;
    let allowed: readonly string[] = [];
    let connection: object | null = null;
    let notifying: (EventTarget & { value?: DataView }) | null = null;
    const device = Object.assign(new EventTarget(), { id: "cell", name: "Cell 7", gatt: {} as object });
    const gone = () => new DOMException("GATT Server is disconnected.", "NetworkError");
    const characteristic = (own: object, uuid: string, properties: object) => {
      const made = Object.assign(new EventTarget(), {
        uuid,
        properties,
        async startNotifications() {
          if (own !== connection) throw gone();
          notifying = made;
          return made;
        },
      });
      return made;
    };
    const services = (own: object) => [
      { uuid: BATTERY, getCharacteristics: async () => [characteristic(own, "2a19", { notify: true, write: false })] },
      {
        uuid: EMPTY,
        getCharacteristics: () => Promise.reject(new DOMException("No Characteristics found.", "NotFoundError")),
      },
      {
        uuid: SERIAL,
        getCharacteristics: async () => [
          characteristic(own, "6e400002", { notify: false, write: true }),
          characteristic(own, "6e400003", { notify: true, write: false }),
        ],
      },
    ];
    const end = () => {
      if (connection === null) return;
      connection = null;
      notifying = null;
      device.dispatchEvent(new Event("gattserverdisconnected"));
    };
    device.gatt = {
      async connect() {
        if (!inReach) throw new DOMException("Bluetooth Device is no longer in range.", "NetworkError");
        const own = {};
        connection = own;
        return {
          async getPrimaryServices() {
            if (own !== connection) throw gone();
            return services(own).filter(({ uuid }) => allowed.includes(uuid));
          },
        };
      },
      disconnect: end,
    };
    Object.defineProperty(navigator, "bluetooth", {
      value: {
        async requestDevice(options: { acceptAllDevices?: boolean; optionalServices?: readonly string[] }) {
          if (options.acceptAllDevices !== true) throw new TypeError("filters or acceptAllDevices is required");
          if (!navigator.userActivation.isActive)
            throw new DOMException("Must be handling a user gesture", "SecurityError");
          allowed = options.optionalServices ?? [];
          return device;
        },
      },
    });
    const tell = (packet: string) => {
      if (notifying === null) return false;
      const bytes = new TextEncoder().encode(packet);
      new Uint8Array(buffer, 7, bytes.length).set(bytes);
      notifying.value = new DataView(buffer, 7, bytes.length);
      notifying.dispatchEvent(new Event("characteristicvaluechanged"));
      // The next value is written where this one stood.
      new Uint8Array(buffer).fill(0x39);
      return true;
    };
    const fake: FakeCell = {
      tell,
      lose(last) {
        tell(last);
        end();
      },
      setInReach(now) {
        inReach = now;
      },
    };
    Object.assign(globalThis, { fakeCell: fake });
  });

/** Sends text in packets of so many bytes, lines cut wherever they end; false where nobody listens. */
export async function told(page: Page, text: string, size = 7): Promise<boolean> {
  const packets = text.match(new RegExp(`[\\s\\S]{1,${size}}`, "g")) ?? [];
  return page.evaluate(
    (all) => all.every((packet) => (globalThis as unknown as { fakeCell: FakeCell }).fakeCell.tell(packet)),
    packets,
  );
}

/** Takes it out of reach, a last packet in the same moment. */
export const lost = (page: Page, last: string): Promise<void> =>
  page.evaluate((packet) => {
    const { fakeCell } = globalThis as unknown as { fakeCell: FakeCell };
    fakeCell.setInReach(false);
    fakeCell.lose(packet);
  }, last);

/** Brings it back. */
export const inReach = (page: Page): Promise<void> =>
  page.evaluate(() => (globalThis as unknown as { fakeCell: FakeCell }).fakeCell.setInReach(true));
