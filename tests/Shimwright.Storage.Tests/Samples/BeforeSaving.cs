using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Shimwright.Storage.Tests.Samples;

/// <summary>
/// Does something between the moment at which a store has read and that at which it saves: once, the first time that the test which
/// made this saves anything. What another device does in that moment cannot be had by trying often.
/// </summary>
internal sealed class BeforeSaving : IDisposable, IObserver<DiagnosticListener>, IObserver<KeyValuePair<string, object?>>
{
    private readonly AsyncLocal<bool> _mine = new() { Value = true };
    private readonly List<IDisposable> _subscriptions = [];
    private readonly Action _meanwhile;

    public BeforeSaving(Action meanwhile)
    {
        _meanwhile = meanwhile;
        _subscriptions.Add(DiagnosticListener.AllListeners.Subscribe(this));
    }

    /// <summary>Whether it came to that.</summary>
    public bool WasDone { get; private set; }

    public void OnNext(DiagnosticListener value)
    {
        if (value.Name == DbLoggerCategory.Name)
        {
            _subscriptions.Add(value.Subscribe(this));
        }
    }

    public void OnNext(KeyValuePair<string, object?> value)
    {
        if (value.Key == CoreEventId.SaveChangesStarting.Name && _mine.Value && !WasDone)
        {
            WasDone = true;
            _meanwhile();
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
