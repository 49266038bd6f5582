-- What every question about stock starts from: a container with its lot, product and place.
-- A new view only: no lock that anybody waits for.
create view container_now with (security_invoker = true) as
  select c.practice_id, c.id, c.code, c.serial, c.opened_on, c.created_at,
         l.id as lot_id, l.lot, l.lot_look, l.use_by, l.use_by_precision,
         p.id as product_id, p.name as product_name, p.kind as product_kind,
         p.in_use_count, p.in_use_unit,
         w.id as location_id, w.name as location_name, w.kind as location_kind, w.outside,
         -- For ordering and filtering; the rule that decides stands in libs/domain.
         least(l.use_by,
               c.opened_on + case p.in_use_unit
                 when 'day' then make_interval(days => p.in_use_count)
                 when 'month' then make_interval(months => p.in_use_count) end)::date as ends_on
  from container c
  join lot l on l.practice_id = c.practice_id and l.id = c.lot_id
  join product p on p.id = c.product_id
  join location w on w.practice_id = c.practice_id and w.id = c.location_id;
grant select on container_now to tubule_app;
