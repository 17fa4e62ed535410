namespace Shimwright.Cli.Commands;

/// <summary>
/// Works on many things at once, on all cores, and hands their answers on in order. While a long one is worked on others go on, but only
/// so many are under way that the memory they take does not grow with their number.
/// </summary>
internal static class InOrder
{
    public static IEnumerable<TAnswer> Of<T, TAnswer>(IEnumerable<T> all, int most, Func<T, TAnswer> work)
    {
        Queue<Task<TAnswer>> underWay = new();
        foreach (T one in all)
        {
            underWay.Enqueue(Task.Run(() => work(one)));
            while (underWay.TryPeek(out Task<TAnswer>? first) && (first.IsCompleted || underWay.Count == most))
            {
                yield return underWay.Dequeue().GetAwaiter().GetResult();
            }
        }

        while (underWay.TryDequeue(out Task<TAnswer>? next))
        {
            yield return next.GetAwaiter().GetResult();
        }
    }
}
