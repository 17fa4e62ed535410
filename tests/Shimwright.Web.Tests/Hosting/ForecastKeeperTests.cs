using System.Reflection;
using System.Threading.Channels;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging.Abstractions;
using Shimwright.Bench;
using Shimwright.Bench.Copies;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Bench.FeelCalibration;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Marks;
using Shimwright.Bench.Orders;
using Shimwright.Bench.Photos;
using Shimwright.Bench.Settings;
using Shimwright.Web.Hosting;

namespace Shimwright.Web.Tests.Hosting;

public class ForecastKeeperTests
{
    [Fact]
    public async Task Bench_ThatIsServed_KeepsItsForecasts()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        Assert.Single(bench.Services.GetServices<IHostedService>().OfType<ForecastKeeper>());
    }

    [Fact]
    public async Task Run_DatabaseThatWasBusy_IsAskedAgainAfterAPause()
    {
        var time = new TimeThatIsWoken();
        var due = new Asked(() => throw new TimeoutException("busy"), () => { });
        using var keeper = new ForecastKeeper(due.Bench, new(time), time, NullLogger<ForecastKeeper>.Instance);
        await keeper.StartAsync(TestContext.Current.CancellationToken);
        (await time.NextTimerAsync())();
        await due.AllAnsweredAsync();
        await keeper.StopAsync(TestContext.Current.CancellationToken);
        Assert.Equal(2, due.Times);
    }

    /// <summary>A bench of which only fresh forecasts can be asked; each time the next answer comes.</summary>
    private sealed class Asked : IBench
    {
        private readonly Queue<Action> _answers;
        private readonly TaskCompletionSource _all = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public Asked(params Action[] answers)
        {
            _answers = new(answers);
            Due = DispatchProxy.Create<IDue, DueProxy>();
            ((DueProxy)Due).Refresh = Answer;
        }

        public IBench Bench => this;

        public int Times { get; private set; }

        public IDue Due { get; }

        public IEngines Engines => throw new NotSupportedException();

        public IJobs Jobs => throw new NotSupportedException();

        public IDrawer Drawer => throw new NotSupportedException();

        public IOrders Orders => throw new NotSupportedException();

        public ICopies Copies => throw new NotSupportedException();

        public IMarks Marks => throw new NotSupportedException();

        public IFeel Feel => throw new NotSupportedException();

        public IPictures Pictures => throw new NotSupportedException();

        public ISettings Settings => throw new NotSupportedException();

        public Task AllAnsweredAsync() => _all.Task.WaitAsync(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken);

        private void Answer()
        {
            Times++;
            Action next = _answers.Dequeue();
            if (_answers.Count == 0)
            {
                _all.SetResult();
            }

            next();
        }
    }

    /// <summary>A clock whose timers go off when a test says so.</summary>
    private sealed class TimeThatIsWoken : TimeProvider
    {
        private readonly Channel<Action> _timers = Channel.CreateUnbounded<Action>();

        public async Task<Action> NextTimerAsync() =>
            await _timers.Reader.ReadAsync(TestContext.Current.CancellationToken).AsTask().WaitAsync(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken);

        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
        {
            _timers.Writer.TryWrite(() => callback(state));
            return base.CreateTimer(callback, state, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        }
    }
}

/// <summary>Stands for what is due; only stale forecasts are brought up to date.</summary>
public class DueProxy : DispatchProxy
{
    public Action Refresh { get; set; } = () => { };

    protected override object? Invoke(MethodInfo? targetMethod, object?[]? args) => targetMethod?.Name == nameof(IDue.KeepFreshAsync)
        ? Answer()
        : throw new NotSupportedException(targetMethod?.Name);

    private async Task Answer()
    {
        await Task.Yield();
        Refresh();
    }
}
