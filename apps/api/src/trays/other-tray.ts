/**
 * The next tray, not yet cleared, on which the container of a tray's item stands as well: its id,
 * its name of chart and teeth, and its room. `item` is the alias of the item's row.
 */
export const otherTray = (item: string): string => `
    select ot.id, oa.chart_number || ' / ' || (
        select string_agg(o.tooth, ' ' order by o.place) from tray_tooth o
        where o.practice_id = ot.practice_id and o.tray_id = ot.id) as name,
      ol.id as room_id, ol.name as room_name
    from tray_item oi
    join tray ot on ot.practice_id = oi.practice_id and ot.id = oi.tray_id and ot.state <> 'cleared'
    join patient oa on oa.practice_id = ot.practice_id and oa.id = ot.patient_id
    join location ol on ol.practice_id = ot.practice_id and ol.id = ot.location_id
    where oi.practice_id = $1 and oi.container_id = ${item}.container_id and oi.removed_at is null
      and oi.tray_id <> ${item}.tray_id
    order by ot.appointment_at limit 1`;
