using System.Data.Common;
using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Npgsql;

namespace Shimwright.Storage.Tests.Drawer;

/// <summary>
/// Breaks off what is done with the database where <see cref="Begin"/> was called, at points drawn by chance: before a command, after one, before
/// a transaction is committed, and after that, so that it is kept and nobody hears of it. On a server every other time the connection is
/// cut at the server's end instead.
/// </summary>
internal sealed class BrokenOff : IDisposable, IObserver<DiagnosticListener>, IObserver<KeyValuePair<string, object?>>
{
    private const int EachKept = 5;

    private readonly AsyncLocal<bool> _isMine = new();
    private readonly List<IDisposable> _subscriptions = [];
    private readonly Lock _gate = new();
    private readonly Random _random;
    private readonly string? _server;
    private readonly int _every;
    private int _left;

    /// <param name="seed">Draws the points.</param>
    /// <param name="every">How many points there are from one break to the next, on average.</param>
    /// <param name="server">The server whose connections are cut, or null.</param>
    public BrokenOff(int seed, int every, string? server)
    {
        (_random, _every, _server) = (new(seed), every, server);
        _left = every;
        _subscriptions.Add(DiagnosticListener.AllListeners.Subscribe(this));
    }

    /// <summary>From here on, in the method that calls this and in what it calls, things are broken off.</summary>
    public void Begin() => _isMine.Value = true;

    /// <summary>How often something was broken off.</summary>
    public int Breaks { get; private set; }

    /// <summary>How often that was after it had been kept.</summary>
    public int Unheard { get; private set; }

    /// <summary>Whether an error is one that was made here.</summary>
    public static bool Made(Exception? error) => error is not null
        && (error is BreakException or NpgsqlException || Made(error.InnerException));

    public void OnNext(DiagnosticListener value)
    {
        if (value.Name == DbLoggerCategory.Name)
        {
            _subscriptions.Add(value.Subscribe(this));
        }
    }

    public void OnNext(KeyValuePair<string, object?> value)
    {
        if (!_isMine.Value || !IsPoint(value.Key) || !IsNow(value.Key, out bool cuts))
        {
            return;
        }

        if (cuts && Connection(value.Value) is NpgsqlConnection connection && value.Key != RelationalEventId.TransactionCommitted.Name)
        {
            using NpgsqlConnection other = new(_server);
            other.Open();
            using NpgsqlCommand cut = new($"SELECT pg_terminate_backend({connection.ProcessID})", other);
            cut.ExecuteNonQuery();
            return;
        }

        throw new BreakException($"Broken off at {value.Key}.");
    }

    public void OnError(Exception error)
    {
    }

    public void OnCompleted()
    {
    }

    public void Dispose() => _subscriptions.ForEach(s => s.Dispose());

    private static bool IsPoint(string name) =>
        name == RelationalEventId.CommandExecuting.Name || name == RelationalEventId.CommandExecuted.Name
        || name == RelationalEventId.TransactionCommitting.Name || name == RelationalEventId.TransactionCommitted.Name;

    private static DbConnection? Connection(object? of) => of switch
    {
        CommandEventData command => command.Connection,
        TransactionEventData transaction => transaction.Context?.Database.GetDbConnection(),
        _ => null,
    };

    private bool IsNow(string point, out bool cuts)
    {
        lock (_gate)
        {
            cuts = false;
            // Every fifth break waits for something to be kept: by chance alone a short run may have none of those.
            if (--_left > 0 || (Breaks % EachKept == EachKept - 1 && point != RelationalEventId.TransactionCommitted.Name))
            {
                return false;
            }

            _left = 1 + _random.Next(2 * _every);
            Breaks++;
            Unheard += point == RelationalEventId.TransactionCommitted.Name ? 1 : 0;
            cuts = _server is not null && Breaks % 2 == 0;
            return true;
        }
    }
}

/// <summary>Something was broken off on purpose.</summary>
internal sealed class BreakException(string message) : IOException(message);
