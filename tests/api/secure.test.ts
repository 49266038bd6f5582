/** One application behind two doors: http, and https with a certificate of this machine. */
import { once } from "node:events";
import { mkdir, mkdtemp, rm } from "node:fs/promises";
import { request as ask, type IncomingMessage } from "node:http";
import { request as askSecurely } from "node:https";
import { tmpdir } from "node:os";
import path from "node:path";
import { connect as connectTls } from "node:tls";
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import { BinaryBitmap, HybridBinarizer, QRCodeReader, RGBLuminanceSource } from "@zxing/library";
import { fastify } from "fastify";
import type { Config } from "../../apps/api/src/config.ts";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { portOf } from "../../apps/api/src/listen.ts";
import type { Machine } from "../../apps/api/src/tls/machine-names.ts";
import { SecureSide } from "../../apps/api/src/tls/secure-side.ts";
import { startSecure, type RunningSecure } from "../../apps/api/src/tls/start-secure.ts";
import { addTrust } from "../../apps/api/src/tls/trust.ts";
import { openApp, password, type TestApp } from "../helpers/app.ts";
import { findPort } from "../helpers/embedded.ts";
import { machineOf, shakeHands } from "../tls/handshake.ts";

let it: TestApp;
let folder: string;
let config: Config;
let secure: RunningSecure;
let side: SecureSide;
let ca: string;
let ports: { http: number; https: number };
const said: string[] = [];
let machine: Machine = machineOf("test-pc", "192.168.7.20/24");
let at = new Date();
const everyMs = 20;

beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "tubule-secure-"));
  it = await openApp();
  await it.app.listen(0, "127.0.0.1");
  const plainPort = portOf(it.app.getHttpServer());
  config = {
    port: 0,
    portAsked: true,
    httpsPort: 0,
    host: "0.0.0.0",
    dataFolder: folder,
    databaseUrl: undefined,
  };
  side = it.app.get(SecureSide);
  secure = await startSecure({
    app: it.app,
    config,
    plainPort,
    side,
    say: (line) => said.push(line),
    machine: () => machine,
    now: () => at,
    everyMs,
  });
  ca = side.authority!.toString();
  ports = { http: plainPort, https: Number(new URL(side.addresses[0]!).port) };
}, 30_000);
afterAll(async () => {
  await secure.stop();
  await it.close();
  await rm(folder, { recursive: true, force: true });
});

interface Told {
  method?: string;
  path: string;
  headers?: Record<string, string>;
  body?: string;
  host?: string;
}
type Door = "http" | "https";

async function send(door: Door, told: Told) {
  const { host = "localhost", method = "GET", headers = {}, body } = told;
  const options = { host, port: ports[door], path: told.path, method, headers, family: 4 };
  const request = door === "http" ? ask(options) : askSecurely({ ...options, ca, agent: false });
  request.end(body);
  const [answer] = (await once(request, "response")) as [IncomingMessage];
  const chunks: Buffer[] = [];
  for await (const chunk of answer) chunks.push(chunk as Buffer);
  const bytes = Buffer.concat(chunks);
  return { status: answer.statusCode, headers: answer.headers, bytes, text: bytes.toString() };
}

const json = { "content-type": "application/json" };
const write = (door: Door, about: string, more: Partial<Told> & { send?: object } = {}) => {
  const { send: content = {}, headers, ...rest } = more;
  const key = { "idempotency-key": newId() };
  return send(door, {
    method: "POST",
    path: `/api/v1${about}`,
    headers: { ...json, ...key, ...headers },
    body: JSON.stringify(content),
    ...rest,
  });
};
const signIn = (door: Door, headers: Record<string, string> = {}) =>
  write(door, "/session", { send: { signInName: "owner", password }, headers });
const cookiesOf = ({ headers }: { headers: IncomingMessage["headers"] }): string[] =>
  headers["set-cookie"] ?? [];
const session = (door: Door, cookie: string) =>
  send(door, { path: "/api/v1/session", headers: { cookie } });

describe("the secure door", () => {
  test("leads to the same application, and the plain one stays open", async () => {
    for (const door of ["http", "https"] as const) {
      const { status, text, headers } = await send(door, { path: "/api/v1/health" });
      expect([door, status]).toEqual([door, 200]);
      expect(JSON.parse(text)).toMatchObject({
        status: "ok",
        secureAddresses: [
          `https://192.168.7.20:${ports.https}`,
          `https://test-pc.local:${ports.https}`,
        ],
        trustPath: "/trust",
      });
      // With it a browser would refuse plain http for a year.
      expect(headers["strict-transport-security"]).toBeUndefined();
      expect(headers["content-security-policy"]).toContain("default-src 'self'");
      expect(String(headers["content-security-policy"])).not.toContain("upgrade-insecure");
      const opener = headers["cross-origin-opener-policy"];
      expect(opener).toBe(door === "https" ? "same-origin" : undefined);
    }
  });

  test("agrees on TLS 1.2 and 1.3 and on nothing older", async () => {
    const hello = { port: ports.https, ca, servername: "localhost" };
    const only = (version: "TLSv1" | "TLSv1.1" | "TLSv1.2" | "TLSv1.3") =>
      shakeHands({
        ...hello,
        minVersion: version,
        maxVersion: version,
        // Without it this client itself would not speak the old versions.
        ciphers: "DEFAULT@SECLEVEL=0",
      });
    expect(await only("TLSv1.3")).toBe("TLSv1.3");
    expect(await only("TLSv1.2")).toBe("TLSv1.2");
    expect(await only("TLSv1.1")).toBe("ERR_SSL_TLSV1_ALERT_PROTOCOL_VERSION");
    expect(await only("TLSv1")).toBe("ERR_SSL_TLSV1_ALERT_PROTOCOL_VERSION");
  });

  test("has the same limits as the plain one", async () => {
    const body = JSON.stringify({ signInName: "x".repeat(1_000_001), password: "x" });
    const told = { method: "POST", path: "/api/v1/session", headers: json, body };
    expect((await send("https", told)).status).toBe(413);
    const long = { path: "/api/v1/health", headers: { "x-long": "x".repeat(17_000) } };
    expect((await send("https", long)).status).toBe((await send("http", long)).status);
    expect((await send("https", { path: "/api/v1/nothing" })).headers["content-type"]).toMatch(
      /^application\/problem\+json/,
    );
  });

  test("takes writes of its own pages and refuses those of others, the plain one's among them", async () => {
    const own = { origin: `https://localhost:${ports.https}` };
    expect((await signIn("https", own)).status).toBe(201);
    for (const origin of [`http://localhost:${ports.http}`, "https://elsewhere.example"]) {
      const answer = await signIn("https", { origin });
      expect([answer.status, answer.text.includes("foreign-origin")]).toEqual([403, true]);
    }
    const plain = { origin: `http://localhost:${ports.http}` };
    expect((await signIn("http", plain)).status).toBe(201);
    expect((await signIn("http", own)).status).toBe(403);
  });
});

describe("a session over https", () => {
  test("is in a cookie that plain http can neither read nor set", async () => {
    const [cookie = ""] = cookiesOf(await signIn("https"));
    expect(cookie).toMatch(/^__Host-tubule_session=[0-9a-f-]{36}\.[\w-]{43}; /);
    const parts = cookie.split("; ").slice(1).sort();
    // What a browser asks of the prefix: Secure, Path=/, no Domain.
    const age = expect.stringMatching(/^Max-Age=/);
    expect(parts).toEqual(["HttpOnly", age, "Path=/", "SameSite=Strict", "Secure"]);
    expect((await session("https", cookie.split(";")[0]!)).status).toBe(200);
    expect((await session("http", cookie.split(";")[0]!)).status).toBe(401);
  });

  test("is not one that plain http has begun: its cookie reaches both ports", async () => {
    const [cookie = ""] = cookiesOf(await signIn("http"));
    expect(cookie).toMatch(/^tubule_session=/);
    expect(cookie).not.toContain("Secure");
    const plain = cookie.split(";")[0]!;
    expect((await session("http", plain)).status).toBe(200);
    expect((await session("https", plain)).status).toBe(401);
    const [own = ""] = cookiesOf(await signIn("https"));
    // A stranger on the network puts a session of theirs into the plain name.
    expect((await session("https", `${plain}; ${own.split(";")[0]!}`)).status).toBe(200);
  });

  test("ends with its own cookie taken back, and a tablet is known by one of its own", async () => {
    const [cookie = ""] = cookiesOf(await signIn("https"));
    const headers = { cookie: cookie.split(";")[0]! };
    const registered = await write("https", "/devices", { send: { name: "Room 1" }, headers });
    expect(registered.status).toBe(201);
    expect(cookiesOf(registered)[0]).toMatch(/^__Host-tubule_device=.*; Secure/);
    const device = cookiesOf(registered)[0]!.split(";")[0]!;
    const people = async (door: Door) =>
      (await send(door, { path: "/api/v1/session/people", headers: { cookie: device } })).text;
    expect(await people("https")).toContain("Room 1");
    expect(await people("http")).not.toContain("Room 1");
    const left = await send("https", {
      method: "DELETE",
      path: "/api/v1/session",
      headers: { ...headers, "idempotency-key": newId() },
    });
    expect(left.status).toBe(200);
    expect(cookiesOf(left)[0]).toMatch(/^__Host-tubule_session=;.*Path=\/.*Secure/);
    expect((await session("https", headers.cookie)).status).toBe(401);
  });
});

describe("the page that makes a device trust it", () => {
  const page = (door: Door, more: Partial<Told> = {}) => send(door, { path: "/trust", ...more });

  test("speaks the language of the browser, or the one asked for", async () => {
    const titleOf = async (told: Partial<Told>) =>
      /<html lang="(..)">[^]*<h1>([^<]*)<\/h1>/.exec((await page("http", told)).text)?.slice(1);
    const english = ["en", "Let this device trust Tubule"];
    const german = ["de", "Dieses Gerät soll Tubule vertrauen"];
    expect(await titleOf({})).toEqual(english);
    expect(await titleOf({ headers: { "accept-language": "fr, de-AT;q=0.8, en;q=0.5" } })).toEqual(
      german,
    );
    expect(await titleOf({ headers: { "accept-language": "en-GB,de" } })).toEqual(english);
    expect(await titleOf({ path: "/trust?language=de" })).toEqual(german);
    expect(await titleOf({ path: "/trust?language=xx&language=de" })).toEqual(english);
  });

  test("shows the fingerprint, the addresses and what the authority can sign for", async () => {
    const { text, headers } = await page("http");
    expect(text.replaceAll("<wbr>", "")).toContain(side.authority!.fingerprint256);
    expect(text).toContain(`https://test-pc.local:${ports.https}`);
    expect(text).toContain(`http://192.168.7.20:${ports.http}/trust`);
    expect(text).toContain("192.168.0.0/16");
    expect(text).not.toMatch(/<script|style=|<style/);
    expect([headers["vary"], headers["cache-control"]]).toEqual(["Accept-Language", "no-store"]);
  });

  test("opens the steps of the device it is on", async () => {
    const opened = async (agent: string) => {
      const { text } = await page("http", { headers: { "user-agent": agent } });
      return [...text.matchAll(/<details open>\s*<summary>([^<]*)/g)].map(([, name]) => name);
    };
    // Forms of the User-Agent header, from memory.
    expect(await opened("Mozilla/5.0 (iPad; CPU OS 17_5 like Mac OS X) Safari/604.1")).toEqual([
      "iPad, iPhone",
    ]);
    expect(await opened("Mozilla/5.0 (Linux; Android 14) Chrome/120")).toEqual(["Android"]);
    expect(await opened("Mozilla/5.0 (X11; Linux x86_64; rv:121.0) Firefox/121.0")).toEqual([
      "Firefox, on any computer",
    ]);
    expect(await opened("")).toEqual([]);
  });

  test("has its own address as a QR code, for the tablet's camera", async () => {
    const { text, headers } = await send("http", { path: "/trust/address.svg" });
    expect(headers["content-type"]).toBe("image/svg+xml");
    const scale = 4;
    const size = Number(/viewBox="0 0 (\d+) /.exec(text)![1]) * scale;
    const grey = new Uint8ClampedArray(size * size).fill(255);
    for (const [, x, y] of text.matchAll(/M(\d+) (\d+)h1v1/g)) {
      for (let row = 0; row < scale; row++) {
        const from = (Number(y) * scale + row) * size + Number(x) * scale;
        grey.fill(0, from, from + scale);
      }
    }
    const source = new RGBLuminanceSource(grey, size, size);
    const read = new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(source)));
    expect(read.getText()).toBe(`http://192.168.7.20:${ports.http}/trust`);
  });

  test("offers the authority without its key, in both forms", async () => {
    const crt = await send("http", { path: "/trust/tubule-ca.crt" });
    expect(crt.headers["content-type"]).toBe("application/x-x509-ca-cert");
    expect(crt.headers["content-disposition"]).toBe('attachment; filename="tubule-ca.crt"');
    expect(crt.bytes.equals(side.authority!.raw)).toBe(true);
    const pem = await send("https", { path: "/trust/tubule-ca.pem" });
    expect(pem.text).toBe(ca);
    expect(pem.text).not.toContain("PRIVATE");
  });
});

describe("when this machine gets another address", () => {
  const until = async (what: () => Promise<boolean> | boolean) => {
    for (let round = 0; !(await what()); round++) {
      if (round > 400) throw new Error("waited too long");
      await new Promise((resolve) => setTimeout(resolve, everyMs));
    }
  };

  test("the certificate names it soon, without a restart, and the console says so", async () => {
    const hello = { port: ports.https, ca, servername: "10.20.30.40" };
    expect(await shakeHands(hello)).toBe("ERR_TLS_CERT_ALTNAME_INVALID");
    machine = machineOf("test-pc", "10.20.30.40/16");
    await until(async () => (await shakeHands(hello)) === "TLSv1.3");
    expect(side.addresses[0]).toBe(`https://10.20.30.40:${ports.https}`);
    expect(said).toEqual([`Tablets now find Tubule at https://10.20.30.40:${ports.https}`]);
    expect((await send("https", { path: "/trust" })).text).toContain("https://10.20.30.40:");
    // Gone again, the certificate is good for what is left, and nobody is sent astray.
    machine = machineOf("test-pc");
    await until(() => side.addresses.length === 1);
    expect(side.addresses).toEqual([`https://localhost:${ports.https}`]);
    expect(said.splice(0).length).toBe(1);
  }, 20_000);

  test("it is renewed while the server runs, before it ends", async () => {
    const endOf = async () => {
      // By the true clock the next one has not begun yet.
      const told = { host: "127.0.0.1", port: ports.https, rejectUnauthorized: false };
      const socket = connectTls(told);
      await once(socket, "secureConnect");
      const { valid_to: end } = socket.getPeerCertificate();
      socket.destroy();
      return Date.parse(end);
    };
    const before = await endOf();
    at = new Date(at.getTime() + 367 * 86_400_000);
    await until(async () => (await endOf()) > before);
    // Nobody has to do anything, so nobody is told.
    expect(said).toEqual([]);
  }, 20_000);
});

describe("where https cannot be", () => {
  const open = async (changed: Partial<Config>) => {
    const heard: string[] = [];
    const other = new SecureSide();
    const told = { app: it.app, plainPort: ports.http, side: other, machine: () => machine };
    const say = (line: string) => heard.push(line);
    const running = await startSecure({ ...told, say, config: { ...config, ...changed } });
    return { heard, side: other, running };
  };

  test("because its port is taken, it takes the next one and says so", async () => {
    const taken = await findPort(true);
    const {
      heard,
      side: other,
      running,
    } = await open({ host: "127.0.0.1", httpsPort: taken.port });
    const port = Number(new URL(other.addresses[0]!).port);
    expect(port).not.toBe(taken.port);
    expect(heard).toEqual([
      `Port ${taken.port} belongs to another program; https uses ${port} instead`,
    ]);
    expect(await shakeHands({ port, ca, servername: "localhost" })).toBe("TLSv1.3");
    await running.stop();
    taken.close();
  });

  test("because nobody wants it, or its authority is damaged, the plain side goes on", async () => {
    const off = await open({ httpsPort: null });
    expect([off.heard, off.side.addresses]).toEqual([[], []]);
    const damaged = path.join(folder, "damaged");
    await mkdir(path.join(damaged, "tls"), { recursive: true });
    const without = await open({ dataFolder: damaged });
    expect(without.side.addresses).toEqual([]);
    expect(without.heard).toEqual([
      expect.stringMatching(/^No https, and so no camera on tablets: .* cannot be read/),
    ]);
    await without.running.stop();
  });

  test("the page says so, and there is nothing to download", async () => {
    const bare = fastify();
    addTrust(bare, new SecureSide());
    const address = await bare.listen({ port: 0, host: "127.0.0.1" });
    const page = await (await fetch(`${address}/trust`)).text();
    expect(page).toContain("started without an encrypted address");
    expect(page).not.toContain("tubule-ca");
    for (const name of ["tubule-ca.crt", "tubule-ca.pem"]) {
      expect((await fetch(`${address}/trust/${name}`)).status).toBe(404);
    }
    await bare.close();
  });
});
