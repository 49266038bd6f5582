/** Of a light `l` in a mode `y`: at each distance the latest reading that no other replaces. */
export const latestReadings = `
  select distinct on (g.distance_tenth_mm) g.distance_tenth_mm, g.irradiance_mw_cm2, g.read_at
  from light_reading g
  where g.practice_id = l.practice_id and g.light_id = l.id and g.mode = y.name
    and not exists (select 1 from light_reading h
      where h.practice_id = g.practice_id and h.replaces_id = g.id)
  order by g.distance_tenth_mm, g.read_at desc, g.id desc`;
