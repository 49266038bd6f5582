import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { allChecks, isRaisable, type CheckSettings } from "#domain";
import type { ToothNotationSetting } from "#contracts/people";
import type { CheckSettingsView } from "#contracts/check-settings";
import { inCommand, inRead } from "../db/transaction.ts";
import type { Call } from "../http/operation.ts";
import { Problem } from "../http/problem.ts";
import * as store from "./check-settings.store.ts";

@Injectable()
export class CheckSettingsService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  getCheckSettings(call: Call<"getCheckSettings">): Promise<CheckSettingsView> {
    return inRead(this.db, call, async (tx) => settingsView(await store.getCheckSettings(tx)));
  }

  changeCheckSettings(call: Call<"changeCheckSettings">): Promise<CheckSettingsView> {
    const settings = { ...call.body, raised: [...new Set(call.body.raised)].sort() };
    const wrong = settings.raised.find((code) => !isRaisable(code));
    if (wrong !== undefined) {
      const path = `/body/raised/${call.body.raised.indexOf(wrong)}`;
      throw new Problem("invalid-request", `'${wrong}' is no caution; leave it out.`, {
        errors: [{ path, message: "only a caution can be raised to a stop" }],
      });
    }
    return inCommand(this.db, call, async (tx) => {
      const before = await store.lockCheckSettings(tx);
      await store.updateCheckSettings(tx, settings);
      tx.audit("checks-changed", "practice", { before, after: settings });
      return settingsView(settings);
    });
  }

  changeToothNotation(call: Call<"changeToothNotation">): Promise<ToothNotationSetting> {
    const { toothNotation: after } = call.body;
    return inCommand(this.db, call, async (tx) => {
      const before = await store.updateToothNotation(tx, after);
      tx.audit("tooth-notation-changed", "practice", { before, after });
      return { toothNotation: after };
    });
  }
}

function settingsView(settings: CheckSettings): CheckSettingsView {
  const checks = allChecks.map(({ code, level, fixed }) => ({ code, level, fixed }));
  return { ...settings, raised: [...settings.raised], checks };
}
