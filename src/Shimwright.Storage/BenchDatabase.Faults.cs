using System.Data.Common;
using System.Net.Sockets;
using Shimwright.Storage.Database;

namespace Shimwright.Storage;

/// <content>Why a database does not answer, in words.</content>
public sealed partial class BenchDatabase
{
    /// <summary>Why a database did not answer, where that is what went wrong.</summary>
    /// <param name="fault">What was thrown.</param>
    /// <returns>The reason and what to do; null where the fault is another one.</returns>
    public static (string Reason, string Next)? WhyAway(Exception fault)
    {
        ArgumentNullException.ThrowIfNull(fault);
        return DatabaseAway.Why(fault);
    }

    private async Task<T> SayingWhyAsync<T>(Func<Task<T>> work)
    {
        try
        {
            return await work();
        }
        catch (Exception e) when (e is not BenchDatabaseException && CauseOf(e) is { } cause)
        {
            throw File is null ? BenchDatabaseException.OfServer(Description, cause) : BenchDatabaseException.OfFile(File, cause);
        }
    }

    /// <summary>What the database, the network or the disk said, however deep; null where it was none of them.</summary>
    private static Exception? CauseOf(Exception e)
    {
        for (Exception? at = e; at is not null and not OperationCanceledException; at = at.InnerException)
        {
            if (at is DbException or SocketException or TimeoutException or IOException or UnauthorizedAccessException)
            {
                return at;
            }
        }

        return null;
    }
}
