using System.Security.Cryptography;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace Shimwright.Web.Lan;

/// <summary>Follows the machine's addresses while the server runs: the certificate is made anew for them, and before it ends.</summary>
internal sealed partial class LanKeeper(LanNames names, ServerCertificate certificate, TimeProvider time, ILogger<LanKeeper> log) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(20);

    /// <summary>Looks once.</summary>
    /// <returns>Whether the certificate was made anew.</returns>
    public async Task<bool> LookAsync(CancellationToken cancel)
    {
        await names.LookAsync(cancel);
        return certificate.Follow(names.All, time.GetUtcNow());
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await LookAsync(stoppingToken);
                await Task.Delay(Pause, time, stoppingToken);
            }
            catch (OperationCanceledException)
            {
                return;
            }
            catch (Exception e) when (e is LanException or CryptographicException or ArgumentException or IOException or UnauthorizedAccessException)
            {
                // A clock that was set back, a folder that cannot be written: the certificate that is shown goes on.
                LogLater(log, e);
                await Task.Delay(Pause, time, CancellationToken.None);
            }
        }
    }

    [LoggerMessage(LogLevel.Warning, "The certificate was not made anew; it will be tried again.")]
    private static partial void LogLater(ILogger logger, Exception exception);
}
