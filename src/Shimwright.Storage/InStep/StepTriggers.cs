using Shimwright.Storage.Database;

namespace Shimwright.Storage.InStep;

/// <summary>
/// The triggers that note what changed. Whatever writes a row, the change is noted in the same transaction, so that nobody who keeps in
/// step can miss it. They belong to the migration that makes them: a later change of them is another migration. A job is noted where its last fact is another one: whoever only holds its row changes nothing.
/// </summary>
internal static class StepTriggers
{
    /// <summary>Tables, what changes there, the column of the id, and when an update counts.</summary>
    private static readonly (string Table, string Kind, string? Key, string? Updated, bool IsDeleted)[] All =
    [
        ("engines", StepModel.Engine, "Id", """OLD."Version" <> NEW."Version" OR OLD."Changes" <> NEW."Changes" """, true),
        ("cards", StepModel.Card, "Id", """OLD."Version" <> NEW."Version" """, false),
        ("jobs", StepModel.Job, "Id", """OLD."Last" <> NEW."Last" """, false),
        ("feels", StepModel.Feel, "PersonId", null, false),
        ("pictures", StepModel.Picture, "Id", null, false),
        ("shim_moves", StepModel.Drawer, null, null, false),
        ("settings", StepModel.Settings, null, null, false),
    ];

    /// <summary>Makes them on SQLite, and notes all that is there.</summary>
    public static string OnSqlite()
    {
        const string count = "UPDATE steps SET \"Last\" = \"Last\" + 1;";
        string Note(string kind, string key) =>
            $"{count} INSERT INTO changes (\"Kind\", \"Key\", \"At\") VALUES ('{kind}', {key}, (SELECT \"Last\" FROM steps)) ON CONFLICT (\"Kind\", \"Key\") DO UPDATE SET \"At\" = excluded.\"At\";";
        return "INSERT INTO steps (\"Id\", \"Bench\", \"Last\") VALUES (1, lower(hex(randomblob(16))), 0);\n"
            + string.Join('\n', All.SelectMany(t => Events(t).Select(e =>
                $"CREATE TRIGGER step_{t.Table}_{e.Event.ToLowerInvariant()} AFTER {e.Event} ON {t.Table}{(e.When is null ? "" : $" WHEN {e.When}")} BEGIN {Note(t.Kind, t.Key is null ? "''" : $"{e.Row}.\"{t.Key}\"")} END;")))
            + "\n" + string.Join('\n', All.Select(t => t.Key is null
                ? $"INSERT INTO changes SELECT '{t.Kind}', '', 1 FROM {t.Table} LIMIT 1;"
                : $"INSERT INTO changes SELECT '{t.Kind}', k, n + (SELECT \"Last\" FROM steps) FROM (SELECT \"{t.Key}\" AS k, row_number() OVER (ORDER BY \"{t.Key}\") AS n FROM (SELECT DISTINCT \"{t.Key}\" FROM {t.Table})); UPDATE steps SET \"Last\" = coalesce((SELECT max(\"At\") FROM changes), 0);"));
    }

    /// <summary>The same on PostgreSQL. There the changes are counted when the transaction ends, in the order in which it does: a number that is seen has none missing before it, and nobody waits for the count while holding what another needs.</summary>
    public static string OnPostgres() =>
        """
        INSERT INTO steps ("Id", "Bench", "Last") VALUES (1, replace(gen_random_uuid()::text, '-', ''), 0);
        CREATE FUNCTION step_note() RETURNS trigger AS $$
        DECLARE
          now_at bigint;
          row_key text := '';
        BEGIN
          UPDATE steps SET "Last" = "Last" + 1 RETURNING "Last" INTO now_at;
          IF TG_NARGS > 1 THEN
            IF TG_OP = 'DELETE' THEN row_key := to_jsonb(OLD) ->> TG_ARGV[1]; ELSE row_key := to_jsonb(NEW) ->> TG_ARGV[1]; END IF;
          END IF;
          INSERT INTO changes ("Kind", "Key", "At") VALUES (TG_ARGV[0], row_key, now_at) ON CONFLICT ("Kind", "Key") DO UPDATE SET "At" = excluded."At";
          RETURN NULL;
        END $$ LANGUAGE plpgsql;

        """
        + string.Join('\n', All.SelectMany(t => Events(t).Select(e =>
            $"CREATE CONSTRAINT TRIGGER step_{t.Table}_{e.Event.ToLowerInvariant()} AFTER {e.Event} ON {t.Table} DEFERRABLE INITIALLY DEFERRED FOR EACH ROW{(e.When is null ? "" : $" WHEN ({e.When})")} EXECUTE FUNCTION step_note('{t.Kind}'{(t.Key is null ? "" : $", '{t.Key}'")});")))
        + "\n" + string.Join('\n', All.Select(t => t.Key is null
            ? $"INSERT INTO changes SELECT '{t.Kind}', '', 1 FROM (SELECT 1 FROM {t.Table} LIMIT 1) AS one;"
            : $"INSERT INTO changes SELECT '{t.Kind}', k::text, n + (SELECT \"Last\" FROM steps) FROM (SELECT k, row_number() OVER (ORDER BY k) AS n FROM (SELECT DISTINCT \"{t.Key}\" AS k FROM {t.Table}) AS ids) AS numbered; UPDATE steps SET \"Last\" = coalesce((SELECT max(\"At\") FROM changes), 0);"));

    /// <summary>Takes them away again.</summary>
    public static string Undo(bool isSqlite) => string.Join('\n', All.SelectMany(t => Events(t).Select(e =>
        $"DROP TRIGGER step_{t.Table}_{e.Event.ToLowerInvariant()}{(isSqlite ? "" : $" ON {t.Table}")};"))) + (isSqlite ? "" : "\nDROP FUNCTION step_note();");

    private static IEnumerable<(string Event, string Row, string? When)> Events((string Table, string Kind, string? Key, string? Updated, bool IsDeleted) table) =>
    [
        ("INSERT", "NEW", null),
        .. table.Updated is { } when ? [("UPDATE", "NEW", when.Trim())] : Array.Empty<(string, string, string?)>(),
        .. table.IsDeleted ? [("DELETE", "OLD", null)] : Array.Empty<(string, string, string?)>(),
    ];
}
