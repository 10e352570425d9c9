// What the card asks of the program, and the answers by their calculator.
import { told, type Server } from '$lib/api/server';
import type { paths } from '$lib/api/schema';
import type {
  CameraCloseUp,
  CameraDepth,
  CameraEv,
  CameraExposure,
  CameraField,
  CameraFilter,
  CameraFlash,
  CameraFraming,
  CameraPan,
  CameraSpeed,
  CameraSun,
  CameraWedge,
  Reckoned,
} from '$lib/api/wire';
import type { CalculatorName } from './calculators';

interface Answers {
  field: CameraField;
  framing: CameraFraming;
  depth: CameraDepth;
  closeup: CameraCloseUp;
  exposure: CameraExposure;
  ev: CameraEv;
  filter: CameraFilter;
  sun: CameraSun;
  pan: CameraPan;
  flash: CameraFlash;
  speed: CameraSpeed;
  length: Reckoned;
  wedge: CameraWedge;
}

export type CameraAnswer = {
  [Name in CalculatorName]: { readonly name: Name; readonly found: Answers[Name] };
}[CalculatorName];

/** What is sent: names of the address, texts as they were typed or read. */
export type Query = Readonly<Record<string, string | number>>;

export interface CameraDesk {
  answer(name: CalculatorName, query: Query): Promise<CameraAnswer>;
}

type QueryOf<Path extends keyof paths> = paths[Path] extends {
  get: { parameters: { query: infer Asked } };
}
  ? Asked
  : never;

/** The running program. `film` is wanted only for the wedge of a roll. */
export class ServedCamera implements CameraDesk {
  constructor(
    private readonly server: Server,
    private readonly film?: string,
  ) {}

  async answer(name: CalculatorName, query: Query): Promise<CameraAnswer> {
    const { server } = this;
    // The form asks for what the address takes; the program refuses what is wanting.
    const as = <Path extends keyof paths>() => ({ params: { query: query as QueryOf<Path> } });
    switch (name) {
      case 'field':
        return {
          name,
          found: await told(server.GET('/api/camera/field', as<'/api/camera/field'>())),
        };
      case 'framing':
        return {
          name,
          found: await told(server.GET('/api/camera/framing', as<'/api/camera/framing'>())),
        };
      case 'depth':
        return {
          name,
          found: await told(server.GET('/api/camera/depth', as<'/api/camera/depth'>())),
        };
      case 'closeup':
        return {
          name,
          found: await told(server.GET('/api/camera/closeup', as<'/api/camera/closeup'>())),
        };
      case 'exposure':
        return {
          name,
          found: await told(server.GET('/api/camera/exposure', as<'/api/camera/exposure'>())),
        };
      case 'ev':
        return { name, found: await told(server.GET('/api/camera/ev', as<'/api/camera/ev'>())) };
      case 'filter':
        return {
          name,
          found: await told(server.GET('/api/camera/filter', as<'/api/camera/filter'>())),
        };
      case 'sun':
        return { name, found: await told(server.GET('/api/camera/sun', as<'/api/camera/sun'>())) };
      case 'pan':
        return { name, found: await told(server.GET('/api/camera/pan', as<'/api/camera/pan'>())) };
      case 'flash':
        return {
          name,
          found: await told(server.GET('/api/camera/flash', as<'/api/camera/flash'>())),
        };
      case 'speed':
        return {
          name,
          found: await told(server.GET('/api/camera/speed', as<'/api/camera/speed'>())),
        };
      case 'length':
        return { name, found: await told(server.GET('/api/reckon', as<'/api/reckon'>())) };
      case 'wedge':
        return { name, found: await this.wedge(query) };
    }
  }

  private wedge(query: Query): Promise<CameraWedge> {
    if (this.film === undefined || !('roll' in query)) {
      const asked = query as QueryOf<'/api/camera/wedge'>;
      return told(this.server.GET('/api/camera/wedge', { params: { query: asked } }));
    }
    const params = {
      path: { film: this.film },
      query: query as QueryOf<'/api/films/{film}/camera/wedge'>,
    };
    return told(this.server.GET('/api/films/{film}/camera/wedge', { params }));
  }
}
