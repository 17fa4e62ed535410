using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Shimwright.Storage.Tests.Samples;

/// <summary>Counts the commands that a database refuses to the test that listens, and to nobody else.</summary>
internal sealed class CommandErrors : IDisposable, IObserver<DiagnosticListener>, IObserver<KeyValuePair<string, object?>>
{
    private readonly AsyncLocal<bool> _mine = new() { Value = true };
    private readonly List<IDisposable> _subscriptions = [];
    private int _count;

    public CommandErrors() => _subscriptions.Add(DiagnosticListener.AllListeners.Subscribe(this));

    public int Count => _count;

    public void OnNext(DiagnosticListener value)
    {
        if (value.Name == DbLoggerCategory.Name)
        {
            _subscriptions.Add(value.Subscribe(this));
        }
    }

    public void OnNext(KeyValuePair<string, object?> value)
    {
        if (value.Key == RelationalEventId.CommandError.Name && _mine.Value)
        {
            Interlocked.Increment(ref _count);
        }
    }

    public void OnError(Exception error)
    {
    }

    public void OnCompleted()
    {
    }

    public void Dispose() => _subscriptions.ForEach(s => s.Dispose());
}
