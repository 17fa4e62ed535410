using System.Reflection;
using Xunit.Sdk;
using Xunit.v3;

namespace Shimwright.Storage.Tests.Samples;

/// <summary>Where a bench may be kept.</summary>
public enum DatabaseKind
{
    Sqlite,
    Postgres,
}

/// <summary>Runs a test once on each database. One that is missing makes its tests fail: see <see cref="TestDatabase"/>.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class OnEachDatabaseAttribute : DataAttribute
{
    public override ValueTask<IReadOnlyCollection<ITheoryDataRow>> GetData(MethodInfo testMethod, DisposalTracker disposalTracker) =>
        ValueTask.FromResult<IReadOnlyCollection<ITheoryDataRow>>(
            [new TheoryDataRow<DatabaseKind>(DatabaseKind.Sqlite), new TheoryDataRow<DatabaseKind>(DatabaseKind.Postgres)]);

    public override bool SupportsDiscoveryEnumeration() => true;
}
