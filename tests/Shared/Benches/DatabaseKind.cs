using System.Reflection;
using Xunit.Sdk;
using Xunit.v3;

namespace Shimwright.Testing.Benches;

/// <summary>Where a bench may be kept.</summary>
public enum DatabaseKind
{
    Sqlite,
    Postgres,
}

/// <summary>Runs a test once on each database, in a quick run on SQLite alone. One that is missing makes its tests fail: see <see cref="TestDatabase"/>.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class OnEachDatabaseAttribute : DataAttribute
{
    public override ValueTask<IReadOnlyCollection<ITheoryDataRow>> GetData(MethodInfo testMethod, DisposalTracker disposalTracker) =>
        ValueTask.FromResult<IReadOnlyCollection<ITheoryDataRow>>(
            [.. Enum.GetValues<DatabaseKind>().Where(k => k == DatabaseKind.Sqlite || !Effort.IsQuick).Select(k => new TheoryDataRow<DatabaseKind>(k))]);

    public override bool SupportsDiscoveryEnumeration() => true;
}
