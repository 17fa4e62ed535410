using System.Net;
using Microsoft.Extensions.Logging;

namespace Shimwright.Web.Door;

/// <summary>What concerns who is let in. No code, token or key is ever written.</summary>
internal sealed partial class SecurityLog(ILoggerFactory logs)
{
    /// <summary>The name under which it is written.</summary>
    public const string Category = "Shimwright.Security";

    private readonly ILogger _log = logs.CreateLogger(Category);

    public void Unknown(IPAddress? caller, string path) => LogUnknown(_log, caller, Plain(path));

    public void LetIn(string device, string role, IPAddress? caller) => LogLetIn(_log, Plain(device), role, caller);

    public void WrongCode(IPAddress? caller, int wrong) => LogWrongCode(_log, caller, wrong);

    public void Closed(IPAddress? caller) => LogClosed(_log, caller);

    public void TooMany(IPAddress? caller) => LogTooMany(_log, caller);

    public void CodeMade(string role, string? by) => LogCodeMade(_log, role, Plain(by ?? "this machine"));

    public void Revoked(string device, string? by) => LogRevoked(_log, Plain(device), Plain(by ?? "this machine"));

    public void Opened(string? by) => LogOpened(_log, Plain(by ?? "this machine"));

    public void Refused(string who, string method, string path) => LogRefused(_log, Plain(who), Plain(method), Plain(path));

    /// <summary>Names are typed by people: nothing in them may look like a line of the log.</summary>
    private static string Plain(string text) => new([.. text.Take(200).Select(c => char.IsControl(c) ? ' ' : c)]);

    [LoggerMessage(LogLevel.Warning, "A token that is not known, or was revoked, from {Caller} for {Path}.")]
    private static partial void LogUnknown(ILogger logger, IPAddress? caller, string path);

    [LoggerMessage(LogLevel.Information, "Let in: {Device}, {Role}, from {Caller}.")]
    private static partial void LogLetIn(ILogger logger, string device, string role, IPAddress? caller);

    [LoggerMessage(LogLevel.Warning, "A wrong code from {Caller}, {Wrong} since the door was opened.")]
    private static partial void LogWrongCode(ILogger logger, IPAddress? caller, int wrong);

    [LoggerMessage(LogLevel.Warning, "A code from {Caller}, but the door is closed.")]
    private static partial void LogClosed(ILogger logger, IPAddress? caller);

    [LoggerMessage(LogLevel.Warning, "Too many codes; {Caller} was not asked.")]
    private static partial void LogTooMany(ILogger logger, IPAddress? caller);

    [LoggerMessage(LogLevel.Information, "A code for a {Role} was made by {By}.")]
    private static partial void LogCodeMade(ILogger logger, string role, string by);

    [LoggerMessage(LogLevel.Information, "{Device} was sent away by {By}.")]
    private static partial void LogRevoked(ILogger logger, string device, string by);

    [LoggerMessage(LogLevel.Information, "The door was opened again by {By}.")]
    private static partial void LogOpened(ILogger logger, string by);

    [LoggerMessage(LogLevel.Warning, "{Who} may not {Method} {Path}.")]
    private static partial void LogRefused(ILogger logger, string who, string method, string path);
}
