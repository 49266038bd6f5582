/** The real program over https: what it says of it, who is let in, and how it ends. */
import { X509Certificate } from "node:crypto";
import { once } from "node:events";
import { readFile, stat, writeFile } from "node:fs/promises";
import { Agent, request as ask } from "node:https";
import type { IncomingMessage } from "node:http";
import { networkInterfaces } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import { endEverything, newDataFolder, startServer, type Program } from "./server-process.ts";

afterAll(endEverything, 30_000);

/** The machine's own address that other machines would use, if it has one. */
const ownAddress = Object.values(networkInterfaces())
  .flatMap((each) => each ?? [])
  .find(({ family, internal }) => family === "IPv4" && !internal)?.address;

const demonstration = JSON.stringify({ signInName: "assistant", password: "demo-assistant" });

describe("a server that lets tablets in", () => {
  let dataFolder: string;
  let server: Program;
  let address: string;
  let secure: string;
  let ca: string;
  const agent = new Agent({ keepAlive: true });
  beforeAll(async () => {
    dataFolder = await newDataFolder();
    ({ server, address } = await startServer(dataFolder, { settings: { HOST: "0.0.0.0" } }));
    secure = await server.says(/^Tablets and the camera: (https:\S+) /);
    ca = await (await fetch(`${address}/trust/tubule-ca.pem`)).text();
  }, 60_000);
  afterAll(() => agent.destroy());

  /** A write over https, by a client that trusts what it has downloaded. */
  async function signIn(host: string) {
    const request = ask({
      agent,
      ca,
      host,
      port: new URL(secure).port,
      method: "POST",
      path: "/api/v1/session",
      headers: { "content-type": "application/json" },
    });
    request.end(demonstration);
    const [answer] = (await once(request, "response")) as [IncomingMessage];
    const text = (await answer.toArray()).join("");
    return { status: answer.statusCode, text };
  }

  test("says where tablets go, what they open first, and what they compare", async () => {
    const place = new URL(address).hostname;
    const { port } = new URL(secure);
    if (ownAddress !== undefined) expect(place).toBe(ownAddress);
    expect(server.lines).toContain(
      `Tablets and the camera: https://${place}:${port} (first open ${address}/trust on the tablet)`,
    );
    const fingerprint = await server.says(/^There, compare the fingerprint: ([0-9A-F:]{95})$/);
    expect(new X509Certificate(ca).fingerprint256).toBe(fingerprint);
    const crt = await (await fetch(`${address}/trust/tubule-ca.crt`)).arrayBuffer();
    expect(new X509Certificate(Buffer.from(crt)).fingerprint256).toBe(fingerprint);
  });

  test("takes the published passwords over https from this machine alone", async () => {
    expect((await signIn("127.0.0.1")).status).toBe(201);
    if (ownAddress === undefined) return;
    const distant = await signIn(ownAddress);
    expect([distant.status, distant.text.includes("demo-on-loopback-only")]).toEqual([403, true]);
  });

  test("stops at once, though a tablet keeps its connection, and trusts itself again", async () => {
    const began = Date.now();
    expect(await server.endGroup("SIGINT")).toBe(0);
    expect(Date.now() - began).toBeLessThan(15_000);
    expect(server.lines.slice(-2)).toEqual(["Stopping", "Stopped"]);
    await expect(signIn("127.0.0.1")).rejects.toThrow(/ECONNREFUSED|ECONNRESET/);

    const again = await startServer(dataFolder);
    const own = await again.server.says(/^On this PC also at (https:\/\/localhost:\d+)\. HOST=0/);
    secure = own;
    expect((await signIn("localhost")).status).toBe(201);
    expect(again.server.lines.join("\n")).not.toMatch(/Tablets|fingerprint/);
    await again.server.endGroup("SIGINT");
  }, 60_000);

  test("goes on without https where its authority is damaged, and says what to do", async () => {
    const file = path.join(dataFolder, "tls", "ca.pem");
    const whole = await readFile(file, "utf8");
    await writeFile(file, "nonsense");
    const damaged = await startServer(dataFolder);
    const said = await damaged.server.says(/^(No https.*)$/);
    expect(said).toContain(`the certificate authority in ${file} cannot be read`);
    expect(said).toContain("move the folder");
    expect((await fetch(`${damaged.address}/api/v1/health`)).status).toBe(200);
    expect(damaged.server.lines.join("\n")).not.toContain("https://");
    expect(await readFile(file, "utf8")).toBe("nonsense");
    await damaged.server.endGroup("SIGINT");
    await writeFile(file, whole);
  }, 60_000);
});

test("a server that is told to do without https makes no certificate", async () => {
  const dataFolder = await newDataFolder();
  const settings = { HTTPS_PORT: "off" };
  const { server } = await startServer(dataFolder, { words: ["--empty"], settings });
  expect(server.lines.join("\n")).not.toContain("https");
  await expect(stat(path.join(dataFolder, "tls"))).rejects.toThrow("ENOENT");
  await server.endGroup("SIGINT");
}, 60_000);
