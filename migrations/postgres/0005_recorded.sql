-- Every entry with what a reader wants to know of it: who recorded it, whether it is void and why, what replaced it.
-- What stands has neither a void_reason nor a replaced_by.
CREATE VIEW recorded AS
SELECT e.organization_id, e.id, e.kind, e.occurred_at, e.occurred_offset, e.recorded_at, e.recorded_by,
    a.name AS recorded_by_name, e.corrects,
    (SELECT c.id FROM entry c
     WHERE c.organization_id = e.organization_id AND c.corrects = e.id
       AND NOT EXISTS (SELECT 1 FROM void x WHERE x.organization_id = c.organization_id AND x.record_id = c.id)
     LIMIT 1) AS replaced_by,
    v.reason AS void_reason, w.recorded_at AS void_at, w.recorded_by AS void_by, b.name AS void_by_name
FROM entry e
LEFT JOIN account a ON a.id = e.recorded_by
LEFT JOIN void v ON v.organization_id = e.organization_id AND v.record_id = e.id
LEFT JOIN entry w ON w.organization_id = v.organization_id AND w.id = v.id
LEFT JOIN account b ON b.id = w.recorded_by;
