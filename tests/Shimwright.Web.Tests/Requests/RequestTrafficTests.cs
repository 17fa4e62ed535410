using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Shimwright.Web.Requests;

namespace Shimwright.Web.Tests.Requests;

public class RequestTrafficTests
{
    [Fact]
    public async Task TurnAsync_WhileARequestWaits_WaitsForItsAnswer()
    {
        RequestTraffic traffic = new(TimeProvider.System);
        TaskCompletionSource answer = new();
        Task request = traffic.CountAsync(new DefaultHttpContext(), _ => answer.Task);
        Task turn = traffic.TurnAsync(Cancel).AsTask();
        Assert.False(turn.IsCompleted);
        answer.SetResult();
        await request;
        await turn;
        Assert.True(traffic.TurnAsync(Cancel).AsTask().IsCompletedSuccessfully);
    }

    [Fact]
    public async Task TurnAsync_RequestThatFails_IsNotWaitedFor()
    {
        RequestTraffic traffic = new(TimeProvider.System);
        await Assert.ThrowsAsync<TimeoutException>(() => traffic.CountAsync(new DefaultHttpContext(), _ => throw new TimeoutException("busy")));
        Assert.True(traffic.TurnAsync(Cancel).AsTask().IsCompletedSuccessfully);
    }

    [Fact]
    public async Task TurnAsync_RequestsWithoutEnd_GoesOnAllTheSame()
    {
        RequestTraffic traffic = new(TimeProvider.System);
        TaskCompletionSource answer = new();
        Task request = traffic.CountAsync(new DefaultHttpContext(), _ => answer.Task);
        await traffic.TurnAsync(Cancel);
        Assert.False(request.IsCompleted);
        answer.SetResult();
        await request;
    }

    [Fact]
    public async Task TurnAsync_AnswerThatHasBegun_IsNotWaitedForAndCountsOnce()
    {
        RequestTraffic traffic = new(TimeProvider.System);
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
        Assert.True(traffic.TurnAsync(Cancel).AsTask().IsCompletedSuccessfully);
        end.SetResult();
        await request;

        TaskCompletionSource answer = new();
        Task next = traffic.CountAsync(new DefaultHttpContext(), _ => answer.Task);
        Assert.False(traffic.TurnAsync(Cancel).AsTask().IsCompleted);
        answer.SetResult();
        await next;
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
