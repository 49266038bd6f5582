/** How many uses the containers here of a product (by its alias) still give; one use a record. */
export const usesLeft = (product: string): string => `(
  select coalesce(sum(greatest(${product}.uses_per_container - (
    select count(distinct m.record_id)::int from step_material m
    join record r on r.practice_id = m.practice_id and r.id = m.record_id
      and r.state <> 'superseded'
    where m.practice_id = $1 and m.lot_id = k.lot_id and m.container_id = k.id), 0)), 0)::int
  from container_now k
  where k.practice_id = $1 and k.product_id = ${product}.id and not k.outside
    and k.location_kind <> 'quarantine')`;
