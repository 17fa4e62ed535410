using Shimwright.Bench.Contents;
using Shimwright.Bench.Copies;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Bench.FeelCalibration;
using Shimwright.Bench.InStep;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Marks;
using Shimwright.Bench.Orders;
using Shimwright.Bench.Photos;
using Shimwright.Bench.Settings;

namespace Shimwright.Bench.Tests.Following;

/// <summary>A bench that is killed after it has done a deed and before it has written down what became of it.</summary>
internal sealed class DyingShop(IBench shop, int after, Exception? overFirst = null) : IBench, IStepped
{
    private readonly IStepped _steps = (IStepped)shop;
    private int _left = after;
    private Exception? _fault = overFirst;

    public IEngines Engines => shop.Engines;

    public IJobs Jobs => shop.Jobs;

    public IDue Due => shop.Due;

    public IDrawer Drawer => shop.Drawer;

    public IOrders Orders => shop.Orders;

    public IMarks Marks => shop.Marks;

    public IFeel Feel => shop.Feel;

    public IPictures Pictures => shop.Pictures;

    public ISettings Settings => shop.Settings;

    public ICopies Copies => shop.Copies;

    public Task<string> NameAsync(CancellationToken cancel = default) => _steps.NameAsync(cancel);

    public Task<StepPart> SinceAsync(StepMark mark, int most, CancellationToken cancel = default) => _steps.SinceAsync(mark, most, cancel);

    public Task<DeedAnswer?> AnsweredAsync(Guid deed, CancellationToken cancel = default) => _steps.AnsweredAsync(deed, cancel);

    public Task HearAsync(HeardDeed heard, CancellationToken cancel = default) => _left-- > 0 ? _steps.HearAsync(heard, cancel) : throw new IOException("killed");

    public Task<IReadOnlySet<Guid>> SentByAsync(Guid pocket, IReadOnlyCollection<Guid> actions, CancellationToken cancel = default) => _steps.SentByAsync(pocket, actions, cancel);

    public Task<T> AtAsync<T>(DateTime time, Func<IBench, Task<T>> work)
    {
        Exception? fault = _fault;
        _fault = null;
        return fault is null ? _steps.AtAsync(time, work) : Task.FromException<T>(fault);
    }

    public bool IsAway(Exception fault) => _steps.IsAway(fault);

    public Task<KeptPicture?> PictureAsync(Guid id, CancellationToken cancel = default) => _steps.PictureAsync(id, cancel);
}
