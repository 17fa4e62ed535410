using Shimwright.Testing.Benches;

namespace Shimwright.Bench.Tests.Alike;

/// <summary>One of two benches to which the same is done; jobs are known by their place, since each bench names them by itself.</summary>
internal sealed class Twin(TestBench test)
{
    public IBench Bench => test.Bench;

    public ManualTime Time => test.Time;

    public List<Guid> Jobs { get; } = [];

    /// <summary>Text with the ids of jobs replaced by their places.</summary>
    public string Plain(string text) =>
        Jobs.Index().Aggregate(text, (t, job) => t.Replace(job.Item.ToString(), $"job {job.Index}", StringComparison.Ordinal));
}

/// <summary>Two benches to which the same is done, and which must answer the same.</summary>
internal sealed class Twins(TestBench one, TestBench other)
{
    private readonly Twin _one = new(one), _other = new(other);
    private readonly List<string> _done = [];

    /// <summary>The bench that is looked at where something has to be chosen.</summary>
    public Twin First => _one;

    /// <summary>Does something on both, a moment after what was done before.</summary>
    public async Task<string> DoAsync(string what, Func<Twin, Task<string>> work)
    {
        _done.Add(what);
        _one.Time.Pass(TimeSpan.FromMinutes(7));
        _other.Time.Pass(TimeSpan.FromMinutes(7));
        string answer = await AnswerAsync(_one, work);
        string second = await AnswerAsync(_other, work);
        Assert.True(answer == second, $"After {string.Join("; ", _done)}\none says\n{answer}\nthe other\n{second}");
        return answer;
    }

    /// <summary>Both have jobs that were not started here.</summary>
    public void Know(IEnumerable<Guid> jobs)
    {
        _one.Jobs.AddRange(jobs);
        _other.Jobs.AddRange(_one.Jobs);
    }

    /// <summary>Waits on both.</summary>
    public void Pass(TimeSpan span)
    {
        _one.Time.Pass(span);
        _other.Time.Pass(span);
    }

    private static async Task<string> AnswerAsync(Twin twin, Func<Twin, Task<string>> work)
    {
        try
        {
            return twin.Plain(await work(twin));
        }
        catch (ArgumentException e)
        {
            return twin.Plain($"{e.GetType().Name}: {e.Message}");
        }
    }
}
