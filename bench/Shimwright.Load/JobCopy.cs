using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Shimwright.Storage.Database;

namespace Shimwright.Load;

/// <summary>Copies a job with all its facts inside the database, under an id and on an engine of its own.</summary>
internal sealed class JobCopy
{
    private readonly DbConnection _connection;
    private readonly DbTransaction _transaction;
    private readonly string _jobs;
    private readonly string _facts;
    private readonly Func<Guid, object> _key;

    public JobCopy(BenchContext context, DbTransaction transaction)
    {
        _connection = context.Database.GetDbConnection();
        _transaction = transaction;
        _key = context.Database.IsSqlite() ? id => id.ToString().ToUpperInvariant() : id => id;
        _jobs = Insert(context.Model.FindEntityType(typeof(JobRow))!, nameof(JobRow.Id), new()
        {
            [nameof(JobRow.Id)] = "@id",
            [nameof(JobRow.Number)] = "(SELECT MAX(\"Number\") + 1 FROM jobs)",
            // The next start of the program works the checksums out.
            [nameof(JobRow.Sum)] = "NULL",
            [nameof(JobRow.EngineId)] = "@engine",
            [nameof(JobRow.Action)] = "@action",
            [nameof(JobRow.StartedAt)] = "\"StartedAt\" - @ago",
            [nameof(JobRow.ChangedAt)] = "\"ChangedAt\" - @ago",
            [nameof(JobRow.ClosedAt)] = "\"ClosedAt\" - @ago",
        });
        _facts = Insert(context.Model.FindEntityType(typeof(FactRow))!, nameof(FactRow.JobId), new()
        {
            [nameof(FactRow.JobId)] = "@id",
            [nameof(FactRow.Sum)] = "NULL",
            [nameof(FactRow.At)] = "\"At\" - @ago",
        });
    }

    public async Task<Guid> AddAsync(Guid model, Guid engine, int minutesAgo)
    {
        var id = Guid.CreateVersion7(TimeProvider.System.GetUtcNow());
        foreach (string sql in new[] { _jobs, _facts })
        {
            await using DbCommand command = _connection.CreateCommand();
            command.Transaction = _transaction;
            command.CommandText = sql;
            Set(command, "@id", _key(id));
            Set(command, "@model", _key(model));
            Set(command, "@ago", TimeSpan.FromMinutes(minutesAgo).Ticks);
            if (sql == _jobs)
            {
                Set(command, "@engine", _key(engine));
                Set(command, "@action", _key(Guid.CreateVersion7(TimeProvider.System.GetUtcNow())));
            }

            await command.ExecuteNonQueryAsync();
        }

        return id;
    }

    private static string Insert(IEntityType entity, string key, Dictionary<string, string> instead)
    {
        var table = StoreObjectIdentifier.Create(entity, StoreObjectType.Table)!.Value;
        (string Name, string Column)[] columns = [.. entity.GetProperties().Select(p => (p.Name, p.GetColumnName(table)!))];
        string names = string.Join(", ", columns.Select(c => $"\"{c.Column}\""));
        string values = string.Join(", ", columns.Select(c => instead.GetValueOrDefault(c.Name) ?? $"\"{c.Column}\""));
        return $"INSERT INTO {table.Name} ({names}) SELECT {values} FROM {table.Name} WHERE \"{columns.Single(c => c.Name == key).Column}\" = @model";
    }

    private static void Set(DbCommand command, string name, object value)
    {
        DbParameter parameter = command.CreateParameter();
        parameter.ParameterName = name;
        parameter.Value = value;
        command.Parameters.Add(parameter);
    }
}
