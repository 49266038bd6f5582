import { describe, expect, test } from "@jest/globals";
import { burst, keysOf, play, type Press } from "./wedge.fixture.ts";

describe("a scanner's burst", () => {
  test("ended by Enter is one scan, and nothing of it stays in the field", () => {
    expect(play(burst("CK7QW4X"))).toMatchObject({ scans: ["CK7QW4X"], field: "" });
  });

  test("ended by Tab is one scan, and Tab moves no focus", () => {
    const { scans, reached } = play(burst("CK7QW4X", 8, "Tab"));
    expect(scans).toEqual(["CK7QW4X"]);
    expect(reached).not.toContain("Tab");
  });

  test("never lets Enter reach a focused button, and no key after its first", () => {
    expect(play(burst("CK7QW4X"), { inText: false }).reached).toEqual(["C"]);
  });

  test("keeps what was typed in the field before it", () => {
    const presses = [...keysOf("lower left", 100), ...burst("0109506000134352", 3)];
    expect(play(presses)).toMatchObject({ field: "lower left", scans: ["0109506000134352"] });
  });

  test("is read at the recorded pace of a slow Bluetooth scanner", () => {
    const gaps = [18, 31, 29, 34, 22, 35, 30, 27];
    let place = 0;
    const pace = () => gaps[place++ % gaps.length]!;
    expect(play(burst("0109506000134352", pace)).scans).toEqual(["0109506000134352"]);
  });

  test("may be sent with Shift held and let go round each capital", () => {
    const presses = Array.from("CK7QW4X").flatMap((key, index): Press[] => [
      { key: "Shift", after: index === 0 ? 400 : 6 },
      { key, after: 6 },
      { key: "Shift", down: false, after: 4 },
    ]);
    expect(play([...presses, { key: "Enter", after: 8 }]).scans).toEqual(["CK7QW4X"]);
  });

  test("followed by a second end key is still one scan", () => {
    const { scans, reached } = play([...burst("CK7QW4X"), { key: "Enter", after: 5 }]);
    expect(scans).toHaveLength(1);
    expect(reached).not.toContain("Enter");
  });

  test("of two labels right after one another gives two scans", () => {
    const second = burst("CAB12C9").map((press, index) =>
      index === 0 ? { ...press, after: 60 } : press,
    );
    expect(play([...burst("CK7QW4X"), ...second]).scans).toEqual(["CK7QW4X", "CAB12C9"]);
  });

  test("without an end key is typing, and is told once", () => {
    const presses = burst("CK7QW4X").slice(0, -1);
    expect(play(presses)).toEqual({
      bursts: [],
      field: "CK7QW4X",
      scans: [],
      reached: ["C", "K"],
      endless: 1,
    });
  });

  test("shorter than six keys is typing", () => {
    expect(play(burst("12345"))).toMatchObject({ field: "12345", scans: [], endless: 0 });
  });
});

describe("the separators of a label", () => {
  const head = keysOf("10LOT7", 8);
  const tail = [...keysOf("17270531", 8), { key: "Enter", after: 8 }];

  test("are understood as Ctrl and the key right of P, also where the layout calls it plus", () => {
    for (const key of ["]", "+", "\u001d"]) {
      const gs: Press = { key, code: "BracketRight", ctrl: true, after: 8 };
      expect(play([...head, gs, ...tail]).scans).toEqual(["10LOT7\u001d17270531"]);
    }
  });

  test("are understood as Alt and 0029 on the keypad", () => {
    const digits = Array.from("0029").map((digit): Press => ({
      key: digit,
      code: `Numpad${digit}`,
      alt: true,
      after: 4,
    }));
    const gs: Press[] = [
      { key: "Alt", alt: true, after: 4 },
      ...digits,
      { key: "Alt", down: false, after: 4 },
    ];
    expect(play([...head, ...gs, ...tail]).scans).toEqual(["10LOT7\u001d17270531"]);
    const first = gs.map((press, index) => (index === 0 ? { ...press, after: 400 } : press));
    expect(play([...keysOf("ab", 100), ...first, ...head, ...tail])).toMatchObject({
      scans: ["\u001d10LOT717270531"],
      field: "ab",
    });
  });

  test("are understood as the character itself", () => {
    const gs: Press = { key: "\u001d", after: 8 };
    expect(play([...head, gs, ...tail]).scans).toEqual(["10LOT7\u001d17270531"]);
  });

  test("include the record separator and the end of transmission", () => {
    const presses: Press[] = [
      ...keysOf("[)>", 8),
      { key: "^", code: "Digit6", ctrl: true, after: 8 },
      ...keysOf("06", 8),
      { key: "]", code: "BracketRight", ctrl: true, after: 8 },
      ...keysOf("1T7", 8),
      { key: "^", code: "Digit6", ctrl: true, after: 8 },
      { key: "d", code: "KeyD", ctrl: true, after: 8 },
      { key: "Enter", after: 8 },
    ];
    expect(play(presses).scans).toEqual(["[)>\u001e06\u001d1T7\u001e\u0004"]);
  });

  test("lost in a dead key leave a mark that no label contains", () => {
    const dead: Press = { key: "Dead", code: "BracketLeft", after: 8 };
    expect(play([...head, dead, ...tail]).scans).toEqual(["10LOT7\u{fffd}17270531"]);
  });
});

describe("a person at the keyboard", () => {
  test("typing 120 words a minute and pressing Enter is never taken for a scan", () => {
    const presses = [
      ...keysOf("the lower left molar was sealed", 100),
      { key: "Enter", after: 90 },
    ];
    const { scans, field, reached } = play(presses);
    expect(scans).toEqual([]);
    expect(field).toBe("the lower left molar was sealed");
    expect(reached.at(-1)).toBe("Enter");
  });

  test("rolling over three keys at once loses none of them", () => {
    const presses = [...keysOf("se", 100), ...keysOf("ale", 20), ...keysOf("d", 100)];
    expect(play(presses)).toMatchObject({ field: "sealed", scans: [] });
  });

  test("holding a key down until Enter is not a scan", () => {
    const held = keysOf("aaaaaaaaa", 33).map((press, index) => ({ ...press, repeat: index > 0 }));
    const presses = [...held, { key: "Enter", after: 30 }];
    expect(play(presses)).toMatchObject({ field: "aaaaaaaaa", scans: [] });
  });

  test("using the keyboard's own commands is left alone", () => {
    const paste: Press = { key: "v", code: "KeyV", ctrl: true, after: 20 };
    expect(play([...keysOf("a", 100), paste]).reached).toEqual(["a", "v"]);
    expect(
      play([
        { key: "Tab", after: 100 },
        { key: "Enter", after: 100 },
      ]).reached,
    ).toEqual(["Tab", "Enter"]);
  });

  test("writing brackets with AltGr on a German keyboard gets them", () => {
    const bracket: Press = { key: "[", code: "Digit8", ctrl: true, alt: true, after: 100 };
    expect(play([bracket]).reached).toEqual(["["]);
  });
});
