using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Shimwright.Web.Requests;

namespace Shimwright.Web.Tests.Requests;

public class RequestTrafficTests
{
    private int _blocked;

    [Fact]
    public async Task DoAsync_WhileARequestWaits_LeavesItTwoProcessors()
    {
        RequestTraffic traffic = new(TimeProvider.System) { AtOnce = 3 };
        TaskCompletionSource answer = new();
        using ManualResetEventSlim goOn = new();
        Task request = traffic.CountAsync(new DefaultHttpContext(), _ => answer.Task);
        Task<int> first = Task.Run(async () => await traffic.DoAsync(() => Blocked(goOn), Cancel), Cancel);
        await UntilAsync(() => Volatile.Read(ref _blocked) == 1);
        Task<int> second = traffic.DoAsync(() => 2, Cancel).AsTask();
        Assert.False(second.IsCompleted);
        answer.SetResult();
        await request;
        Assert.Equal(2, await second);
        goOn.Set();
        Assert.Equal(1, await first);
    }

    [Fact]
    public async Task DoAsync_OneProcessor_WaitsForTheAnswer()
    {
        RequestTraffic traffic = new(TimeProvider.System) { AtOnce = 1 };
        TaskCompletionSource answer = new();
        Task request = traffic.CountAsync(new DefaultHttpContext(), _ => answer.Task);
        Task<int> work = traffic.DoAsync(() => 1, Cancel).AsTask();
        Assert.False(work.IsCompleted);
        answer.SetResult();
        await request;
        Assert.Equal(1, await work);
        Assert.True(traffic.DoAsync(() => 1, Cancel).AsTask().IsCompletedSuccessfully);
    }

    [Fact]
    public async Task DoAsync_RequestOrWorkThatFails_IsNotWaitedFor()
    {
        RequestTraffic traffic = new(TimeProvider.System) { AtOnce = 1 };
        await Assert.ThrowsAsync<TimeoutException>(() => traffic.CountAsync(new DefaultHttpContext(), _ => throw new TimeoutException("busy")));
        await Assert.ThrowsAsync<TimeoutException>(() => traffic.DoAsync<int>(() => throw new TimeoutException("busy"), Cancel).AsTask());
        Assert.True(traffic.DoAsync(() => 1, Cancel).AsTask().IsCompletedSuccessfully);
    }

    [Fact]
    public async Task DoAsync_RequestsWithoutEnd_GoesOnAllTheSame()
    {
        RequestTraffic traffic = new(TimeProvider.System) { AtOnce = 1 };
        TaskCompletionSource answer = new();
        Task request = traffic.CountAsync(new DefaultHttpContext(), _ => answer.Task);
        Assert.Equal(1, await traffic.DoAsync(() => 1, Cancel));
        Assert.False(request.IsCompleted);
        answer.SetResult();
        await request;
    }

    [Fact]
    public async Task DoAsync_AnswerThatHasBegun_IsNotWaitedForAndCountsOnce()
    {
        RequestTraffic traffic = new(TimeProvider.System) { AtOnce = 1 };
        TaskCompletionSource end = new();
        DefaultHttpContext news = new();
        Begun begun = new();
        news.Features.Set<IHttpResponseFeature>(begun);
        Task request = traffic.CountAsync(news, async _ =>
        {
            await begun.StartAsync();
            await end.Task;
        });
        Assert.False(request.IsCompleted);
        Assert.True(traffic.DoAsync(() => 1, Cancel).AsTask().IsCompletedSuccessfully);
        end.SetResult();
        await request;

        TaskCompletionSource answer = new();
        Task next = traffic.CountAsync(new DefaultHttpContext(), _ => answer.Task);
        Assert.False(traffic.DoAsync(() => 1, Cancel).AsTask().IsCompleted);
        answer.SetResult();
        await next;
    }

    private int Blocked(ManualResetEventSlim goOn)
    {
        Interlocked.Increment(ref _blocked);
        goOn.Wait(Cancel);
        return 1;
    }

    private static async Task UntilAsync(Func<bool> isSo)
    {
        while (!isSo())
        {
            await Task.Delay(1, Cancel);
        }
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <summary>An answer whose start is said by the test.</summary>
    private sealed class Begun : HttpResponseFeature
    {
        private readonly List<Func<Task>> _starting = [];

        public override void OnStarting(Func<object, Task> callback, object state) => _starting.Add(() => callback(state));

        public async Task StartAsync()
        {
            foreach (Func<Task> starting in _starting)
            {
                await starting();
            }
        }
    }
}
