/**
 * Pieces of SQL about sealing records `s`. All versions of a record share tray and tooth, so these
 * two name a seal: whatever was built on, or said of, an earlier version counts for the newest. The
 * one that stands is signed, the others superseded, and it holds all that is still true.
 */

const sameChain = (a: string, b: string): string =>
  `${a}.practice_id = ${b}.practice_id and ${a}.tray_id = ${b}.tray_id and ${a}.tooth = ${b}.tooth`;

export const isSeal = "s.visit = 'sealing' and s.state = 'signed'";

const bondedOn = (seal: string): string =>
  `b.seal_id = ${seal} and b.seal_id is not null and b.state = 'signed'`;
/**
 * No bonding record, as it stands now, was built on it. Nearly all seals have one version and are
 * bonded: these are told by two indexes, and earlier versions asked for where there are any.
 */
export const isUnbonded = `not exists (
    select 1 from record b where b.practice_id = s.practice_id and ${bondedOn("s.id")})
  and (s.version = 1 or not exists (
    select 1 from record v
    join record b on b.practice_id = v.practice_id and ${bondedOn("v.id")}
    where ${sameChain("v", "s")} and v.version < s.version))`;

const lastChange = `from waiting_change w where ${sameChain("w", "s")} and not w.waits
      and not exists (select 1 from waiting_change x
        where ${sameChain("x", "w")} and x.sequence = w.sequence + 1)`;
/** Somebody took it off the list, and nobody has put it back. */
export const isOff = `exists (select 1 ${lastChange})`;

/** What is known of a seal's surface; `s` has practice_id, id, tray_id and tooth. */
export const surfaceColumns = `o.provisional, o.restoration, used.coated, used.separated,
    used.cement, noted.contaminated`;
export const surfaceJoins = `join tray_tooth o on ${sameChain("o", "s")}
  cross join lateral (
    select coalesce(bool_or(p.kind = 'flowable'), false) as coated,
      coalesce(bool_or(p.kind = 'separating-agent'), false) as separated,
      (array_agg(json_build_object('name', p.name, 'contents', p.contents, 'lot_id', m.lot_id,
          'lot', l.lot) order by m.used_at desc, m.id desc)
        filter (where p.kind = 'provisional-cement'))[1] as cement
    from step_material m
    join product p on p.id = m.product_id
    left join lot l on l.practice_id = m.practice_id and l.id = m.lot_id
    where m.practice_id = s.practice_id and m.record_id = s.id) used
  cross join lateral (
    select coalesce(array_agg(distinct v.facts->>'what'), '{}') as contaminated
    from record_event v
    where v.practice_id = s.practice_id and v.record_id = s.id and v.kind = 'deviation'
      and v.facts->>'what' in ('blood', 'saliva')) noted`;

/** Why a seal is off the list, else null. */
export const offColumn = `(
    select json_build_object('reason', w.reason, 'note', w.note, 'by', q.display_name, 'at', w.at)
    from (select w.* ${lastChange}) w join person q on q.id = w.person_id) as off`;

/** The next bonding visit of the tooth that has a tray, else null; `s` has patient_id. */
export const visitColumn = `(
    select json_build_object('tray_id', t.id, 'appointment_at', t.appointment_at, 'state', t.state)
    from tray t
    join tray_tooth z on z.practice_id = t.practice_id and z.tray_id = t.id and z.tooth = s.tooth
    join technique e on e.id = t.technique_id and e.visit = 'bonding'
    where t.practice_id = s.practice_id and t.patient_id = s.patient_id and t.state <> 'cleared'
    order by t.appointment_at, t.id limit 1) as visit`;
