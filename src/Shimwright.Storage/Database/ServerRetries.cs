using Microsoft.EntityFrameworkCore.Storage;
using Npgsql.EntityFrameworkCore.PostgreSQL;

namespace Shimwright.Storage.Database;

/// <summary>
/// Does again what failed because a connection to the server broke, a few times within seconds: after the server was started anew every connection
/// that was kept is one that broke. A server that stays away is said to be.
/// </summary>
internal sealed class ServerRetries(ExecutionStrategyDependencies dependencies) : NpgsqlRetryingExecutionStrategy(dependencies, MostRetries, LongestPause, null)
{
    private const int MostRetries = 3;
    private static readonly TimeSpan LongestPause = TimeSpan.FromSeconds(1);
}
