using Shimwright.Bench.Drawer;
using Shimwright.Domain.Shims;
using Shimwright.Testing.Chance;

namespace Shimwright.Testing.Shed;

/// <summary>
/// Where every shim really is: in a compartment of the drawer, in an engine, or on the tray of an open job. It knows nothing of the
/// ledger; shims are moved by hands, and a hand that reaches into an empty compartment finds that out.
/// </summary>
internal sealed class ShimWorld(int seed)
{
    private readonly Lock _gate = new();
    private readonly Dictionary<ShimSize, Stack<Shim>> _drawer = [];
    private readonly Draws _draws = new(seed, 101);
    private int _made;

    /// <summary>How many there are in all, bought or in an engine from the beginning.</summary>
    public int Made => _made;

    /// <summary>A shim of a size, off its mark by as much as the model says.</summary>
    public Shim Make(ShimSize size)
    {
        lock (_gate)
        {
            return new(++_made, size, size.ThicknessMm + _draws.Normal(Instrument.Marked.Random));
        }
    }

    /// <summary>Lays a shim into the compartment of its size.</summary>
    public void Lay(Shim shim)
    {
        lock (_gate)
        {
            if (!_drawer.TryGetValue(shim.Size, out Stack<Shim>? there))
            {
                _drawer.Add(shim.Size, there = new());
            }

            there.Push(shim);
        }
    }

    /// <summary>Takes a shim out of its compartment.</summary>
    public Shim Take(ShimSize size)
    {
        lock (_gate)
        {
            return _drawer.TryGetValue(size, out Stack<Shim>? there) && there.TryPop(out Shim? shim)
                ? shim
                : throw new InvalidOperationException($"A plan was accepted that uses {size}, and none lies in the drawer.");
        }
    }

    /// <summary>What lies in the drawer.</summary>
    public IReadOnlyDictionary<ShimSize, int> Lying()
    {
        lock (_gate)
        {
            return _drawer.ToDictionary(d => d.Key, d => d.Value.Count);
        }
    }

    /// <summary>Every shim that lies in the drawer.</summary>
    public IReadOnlyList<Shim> InDrawer()
    {
        lock (_gate)
        {
            return [.. _drawer.Values.SelectMany(s => s)];
        }
    }
}
